//! The time stamp beside a sealed package: about this seal, whole, and of a service that somebody trusts.

use crate::commands::stamp::{beside, sealing_line};
use crate::problem::{ALTERED, MISUNDERSTOOD, Problem};
use crate::screen::Screen;
use record::Entry;
use serde_json::{Value, json};
use std::path::{Path, PathBuf};
use timestamp::{Doubt, Roots, Token, Trust};

/// Which time stamp, and whom to trust.
pub(super) struct Asked<'a> {
    pub(super) package: &'a Path,
    /// The one beside the package when left out.
    pub(super) time_stamp: Option<&'a Path>,
    pub(super) service_root: Option<&'a Path>,
}

/// A time stamp and what it is worth.
pub(super) struct Stamped {
    path: PathBuf,
    read: Result<Token, Doubt>,
    /// `None` where no root was named.
    trust: Option<Trust>,
}

impl Stamped {
    /// The time stamp of a package; `None` where there is none and none was named.
    pub(super) fn of(asked: &Asked<'_>, seal: Option<&Entry>) -> Result<Option<Self>, Problem> {
        let roots = asked.service_root.map(roots).transpose()?;
        let beside = Some(beside(asked.package)).filter(|path| path.exists());
        let named = asked.time_stamp.map(Path::to_owned).or(beside);
        let (Some(path), Some(seal)) = (named, seal) else {
            return if roots.is_some() { Err(none(asked.package)) } else { Ok(None) };
        };
        let bytes = std::fs::read(&path).map_err(|error| Problem::file("Reading", &path, &error))?;
        let about = |token: Token| token.covers(sealing_line(seal).as_bytes()).map(|()| token);
        let read = Token::read(&bytes).and_then(about);
        let trust = read.as_ref().ok().zip(roots.as_ref()).map(|(token, roots)| token.trust(roots));
        Ok(Some(Stamped { path, read, trust }))
    }

    pub(super) fn tell(&self, screen: &mut Screen) {
        let Ok(token) = &self.read else { return };
        screen.say(&format!(
            "Time stamp: {} says that the seal was there at {}.",
            token.service(),
            token.time()
        ));
        match &self.trust {
            Some(Trust::Rooted) => {
                screen.say("Its certificate leads to the root you named. Whether it was taken back since was not asked.");
            }
            Some(Trust::Unrooted(_)) => {}
            None => screen.say(
                "Whose certificate that is was not looked at: name the root of the service with --service-root.",
            ),
        }
    }

    pub(super) fn json(&self) -> Value {
        let token = self.read.as_ref().ok();
        let trust = match &self.trust {
            Some(Trust::Rooted) => "rooted",
            Some(Trust::Unrooted(_)) => "unrooted",
            None => "not_asked",
        };
        json!({
            "file": self.path.display().to_string(),
            "time": token.map(|token| token.time().to_string()),
            "service": token.map(Token::service),
            "number": token.map(Token::number),
            "trust": trust,
            "doubt": self.read.as_ref().err().map(ToString::to_string),
        })
    }

    /// What is wrong with it. The package is proved without it.
    pub(super) fn problem(&self) -> Option<Problem> {
        let path = self.path.display();
        match (&self.read, &self.trust) {
            (Err(doubt), _) => Some(Problem::new(
                format!("{path}: {doubt}."),
                "The package itself is proved; when it was sealed is not, beyond the clock of whoever sealed it.",
                "Ask for the time stamp that was handed over with the package, or name it with --time-stamp.",
            )),
            (_, Some(Trust::Unrooted(why))) => Some(Problem::new(
                format!("{path}: the certificate of the service does not lead to the root you named ({why})."),
                "The package itself is proved; the time is told by somebody you do not trust.",
                "Ask the service for its root, or look whether the time stamp is the right one.",
            )),
            _ => None,
        }
        .map(|problem| problem.exit(ALTERED))
    }
}

fn roots(path: &Path) -> Result<Roots, Problem> {
    let text = std::fs::read(path).map_err(|error| Problem::file("Reading", path, &error))?;
    Roots::from_pem(&text).ok_or_else(|| {
        let what = format!("{}: there is no certificate in it that could be a root.", path.display());
        Problem::new(what, "Nothing was proved.", "Name the root of the service as PEM.").exit(MISUNDERSTOOD)
    })
}

fn none(package: &Path) -> Problem {
    let what = format!("{} has no time stamp beside it.", package.display());
    Problem::new(what, "There is nothing the root could prove.", "Name the time stamp with --time-stamp.")
        .exit(MISUNDERSTOOD)
}
