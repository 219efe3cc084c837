//! Carries what a virtual tablet asks over real HTTP, and brings back what it hears.

use std::time::Duration;
use sync::{Answer, Ask, What};
use testkit::network::{Device, Fate};
use ureq::Agent;
use ureq::http::Response;
use wire::http::{CURSOR_HEADER, JobState, Jobs, MORE_HEADER, PREFIX, Pair, Paired};

/// A paired tablet's way to the desk.
#[derive(Clone)]
pub(crate) struct Carrier {
    agent: Agent,
    /// Where the desk listens; another port after each of its restarts.
    pub(crate) address: String,
    token: String,
}

impl Carrier {
    /// Pairs with the desk at an address.
    pub(crate) fn pair(address: &str, code: &str, name: &str) -> Self {
        let config = Agent::config_builder()
            .http_status_as_error(false)
            .timeout_global(Some(Duration::from_secs(10)))
            .build();
        let agent = Agent::new_with_config(config);
        // Any public key will do: the desk only tells devices apart by it.
        let device = testkit::key(0).device().to_string();
        let device = format!("{}{:04x}", &device[..60], name.bytes().fold(0_u16, next));
        let pair = Pair { code: code.to_owned(), name: name.to_owned(), device };
        let body = serde_json::to_string(&pair).expect("texts");
        let url = format!("http://{address}{PREFIX}/pair");
        let sent = agent.post(url).header("content-type", "application/json").send(body);
        let mut response = sent.expect("the desk answers");
        let said = response.body_mut().read_to_string().expect("a text");
        let paired: Paired = serde_json::from_str(&said).unwrap_or_else(|_| panic!("not paired: {said}"));
        Carrier { agent, address: address.to_owned(), token: paired.token }
    }

    /// Carries one ask. `None`: no answer came, or none that can be read.
    pub(crate) fn carry(&self, ask: &Ask, lines: String, job: &str) -> Option<Answer> {
        let bearer = format!("Bearer {}", self.token);
        let url = format!("http://{}{PREFIX}/entries", self.address);
        let response = match &ask.what {
            What::Push { .. } => self.agent.post(url).header("authorization", bearer).send(lines),
            What::Pull { after, limit } => {
                let url = format!("{url}?job={job}&after={after}&limit={limit}");
                self.agent.get(url).header("authorization", bearer).call()
            }
        };
        read(ask, response.ok()?)
    }

    /// What the desk holds of a job; `None` when it does not answer.
    pub(crate) fn state(&self, job: &str) -> Option<JobState> {
        let bearer = format!("Bearer {}", self.token);
        let url = format!("http://{}{PREFIX}/jobs", self.address);
        let mut response = self.agent.get(url).header("authorization", bearer).call().ok()?;
        let jobs: Jobs = serde_json::from_str(&response.body_mut().read_to_string().ok()?).ok()?;
        jobs.jobs.into_iter().find(|state| state.job == job)
    }
}

fn next(sum: u16, byte: u8) -> u16 {
    sum.wrapping_mul(31).wrapping_add(u16::from(byte))
}

fn read(ask: &Ask, mut response: Response<ureq::Body>) -> Option<Answer> {
    let header = |name: &str| response.headers().get(name)?.to_str().ok().map(str::to_owned);
    let (cursor, more) = (header(CURSOR_HEADER), header(MORE_HEADER));
    let good = response.status().as_u16() == 200;
    let text = response.body_mut().with_config().limit(64 * 1024 * 1024).read_to_string().ok()?;
    match &ask.what {
        _ if !good => serde_json::from_str(&text).ok().map(Answer::Refused),
        What::Push { .. } => serde_json::from_str(&text).ok().map(Answer::Pushed),
        What::Pull { .. } => Some(Answer::Page {
            lines: text.lines().map(str::to_owned).collect(),
            cursor: cursor?.parse().ok()?,
            more: more? == "true",
        }),
    }
}

/// One exchange: ask, carry, hear. `None`: there is nothing to ask; else whether an answer came.
pub(crate) fn exchange(device: &mut Device, carrier: &Carrier, job: &str) -> Option<bool> {
    let (ask, lines) = device.ask()?;
    match carrier.carry(&ask, lines, job) {
        Some(answer) => {
            device.heard(ask.number, answer, Fate::Keeps);
            Some(true)
        }
        None => {
            device.tablet.lost(ask.number);
            Some(false)
        }
    }
}
