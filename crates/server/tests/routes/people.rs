//! `/people`: the first invitation, signing in and out, roles, devices of a person; and what an attacker would try.

use crate::office::{Answer, Office, lines, pairing, remarks};
use expect_test::expect;
use store::{Database, EVERY_JOB, People, Role, SignIns};
use wire::http::Paired;

const PASSWORD: &str = "rain+on+the+rig+again";
pub(crate) const OWN: &str = "sec-fetch-site: same-origin";

fn store(office: &Office) -> Database {
    office.store()
}

fn now() -> i64 {
    let since = std::time::SystemTime::now().duration_since(std::time::UNIX_EPOCH).expect("after 1970");
    since.as_secs() as i64
}

/// As the console does it.
fn invited(office: &Office, name: &str, roles: &[(&str, Role)]) -> String {
    let mut store = store(office);
    let number = store.add_person(name, now()).expect("added");
    for (job, role) in roles {
        store.give_role(number, job, *role).expect("given");
    }
    let code = server::invitation_secret().expect("chance");
    store.invite(number, &code, now() + 1000).expect("invited");
    code
}

pub(crate) fn post(office: &Office, path: &str, cookie: &str, form: &str) -> Answer {
    office.ask(&format!("POST {path}\n{OWN}\ncookie: {cookie}"), None, form.as_bytes())
}

/// The cookie of an answer, as a browser sends it back.
pub(crate) fn cookie(answer: &Answer) -> String {
    answer.header("set-cookie").split(';').next().unwrap_or_default().to_owned()
}

/// One who used the invitation; the cookie of the session.
pub(crate) fn comes(office: &Office, name: &str, roles: &[(&str, Role)]) -> String {
    let code = invited(office, name, roles);
    let form = format!("invitation={code}&new={PASSWORD}&again={PASSWORD}");
    let answer = post(office, "/people/invited", "x=1", &form);
    assert_eq!((answer.status, answer.header("location")), (303, "/people"), "{}", answer.text());
    cookie(&answer)
}

pub(crate) fn manager(office: &Office) -> String {
    comes(office, "d.pike", &[(EVERY_JOB, Role::Manager)])
}

pub(crate) fn page(office: &Office, path: &str, cookie: &str) -> Answer {
    office.ask(&format!("GET {path}\naccept: text/html\ncookie: {cookie}"), None, b"")
}

fn sign_in(office: &Office, name: &str, password: &str, cookie: &str) -> Answer {
    post(office, "/people/sign-in", cookie, &format!("name={name}&password={password}"))
}

/// A device that is paired with a code of whoever is signed in; its token.
fn device_of(office: &Office, cookie: &str, number: u8) -> String {
    let shown = post(office, "/people/codes", cookie, "").text();
    let code = shown.split("class=\"code\">").nth(1).expect("a code").split('<').next().expect("a code");
    let answer = office.ask("POST /api/v1/pair", None, &pairing(code, number));
    serde_json::from_slice::<Paired>(&answer.bytes).expect("paired").token
}

#[test]
fn from_the_first_invitation_to_a_tablet_that_writes_with_its_holders_roles() {
    let office = Office::open();
    assert!(page(&office, "/people/sign-in", "").text().contains("There are no people here yet"));
    let old = office.pair(1);
    assert_eq!(office.get("/api/v1/jobs", &old).status, 200);

    let chief = manager(&office);
    assert!(page(&office, "/people", &chief).text().contains("manager on every job"));
    // A device of before belongs to nobody, and what it holds waits.
    assert_eq!(office.get("/api/v1/jobs", &old).refusal().code, "not-paired");
    assert!(office.get("/api/v1/hello", &old).text().contains("\"paired\":false"));

    // A role for somebody new is an invitation, shown once.
    let answer = post(&office, "/people/office/give", &chief, "name=A.Hall&role=inspector&job=J-1");
    let text = answer.text();
    let code = text.split("/people/invited#").nth(1).expect("a link").split('<').next().expect("a code");
    assert_eq!(code.len(), 64);
    let form = format!("invitation={code}&new={PASSWORD}&again={PASSWORD}");
    let used = post(&office, "/people/invited", "x=1", &form);
    assert_eq!(used.status, 303);
    assert_eq!(post(&office, "/people/invited", "x=1", &form).refusal().code, "invitation-wrong");

    // Who makes the code is whose device it is.
    let hall = cookie(&used);
    let shown = post(&office, "/people/codes", &hall, "").text();
    let code = shown.split("class=\"code\">").nth(1).expect("a code").split('<').next().expect("a code");
    let answer = office.ask("POST /api/v1/pair", None, &pairing(code, 1));
    let paired: Paired = serde_json::from_slice(&answer.bytes).expect("paired");
    assert_eq!(paired.signs_as.as_deref(), Some("a.hall"));
    assert_eq!(office.push(&paired.token, &lines(&remarks(1, 2))).answers.len(), 2);
    assert_eq!(office.get("/api/v1/entries?job=J-1", &paired.token).status, 200);
    assert_eq!(office.get("/api/v1/entries?job=J-2", &paired.token).refusal().code, "no-role");
    assert!(page(&office, "/people", &hall).text().contains("Rig 1"));

    // The role is taken away, and the next question is refused; let go, what it brings is set aside.
    let number = store(&office).person_named("a.hall").expect("asked").expect("somebody").0.number;
    let taken = post(&office, "/people/jobs/J-1/take", &chief, &format!("person={number}&role=inspector"));
    assert_eq!(taken.status, 303);
    assert_eq!(office.get("/api/v1/entries?job=J-1", &paired.token).refusal().code, "no-role");
    let gone = post(&office, &format!("/people/office/people/{number}/let-go"), &chief, "");
    assert_eq!(gone.status, 303);
    assert_eq!(page(&office, "/people", &hall).header("location"), "/people/sign-in");
    let pushed = office.push(&paired.token, &lines(&remarks(1, 3)));
    assert_eq!(pushed.answers[2].refusal.as_ref().map(|refusal| refusal.code.as_str()), Some("set-aside"));
    assert_eq!(sign_in(&office, "a.hall", PASSWORD, "").refusal().code, "sign-in-wrong");
    let told: Vec<String> = store(&office)
        .sign_ins(i64::MAX, 100)
        .expect("asked")
        .into_iter()
        .rev()
        .map(|(_, happened)| format!("{} {}", happened.what, happened.person.unwrap_or_default()))
        .collect();
    let expected = [
        "invitation-used d.pike",
        "role-given a.hall",
        "invited a.hall",
        "invitation-used a.hall",
        "refused ",
        "device-paired a.hall",
        "refused a.hall",
        "role-taken a.hall",
        "person-let-go a.hall",
        "refused a.hall",
    ];
    let told: Vec<&str> = told.iter().map(String::as_str).filter(|told| *told != "device-paired ").collect();
    assert_eq!(told, expected);
}

/// A session somebody was given before signing in is not the one they have afterwards.
#[test]
fn nobody_signs_in_into_a_session_somebody_else_chose() {
    let office = Office::open();
    let own = manager(&office);
    let chosen = format!("shaftbook_session={}", "ab".repeat(32));
    let answer = sign_in(&office, "d.pike", PASSWORD, &chosen);
    assert_eq!(answer.status, 303);
    assert_ne!(cookie(&answer), chosen);
    assert_eq!(page(&office, "/people", &chosen).status, 303, "the one that was chosen opens nothing");
    // A second sign-in in the same browser ends the first session.
    let second = cookie(&sign_in(&office, "d.pike", PASSWORD, &own));
    assert_ne!(second, own);
    assert_eq!((page(&office, "/people", &own).status, page(&office, "/people", &second).status), (303, 200));
    let out = post(&office, "/people/sign-out", &second, "");
    assert!(out.header("set-cookie").contains("Max-Age=0"));
    assert_eq!(page(&office, "/people", &second).status, 303);
}

/// Over HTTPS the plain cookie is not looked at, so a neighbour without HTTPS cannot plant one.
#[test]
fn over_https_only_the_cookie_bound_to_the_host_counts() {
    let office = Office::open();
    let plain = manager(&office);
    let head = format!("POST /people/sign-in\n{OWN}\nx-forwarded-proto: https");
    let answer = office.ask(&head, None, format!("name=d.pike&password={PASSWORD}").as_bytes());
    let set = answer.header("set-cookie");
    assert!(
        set.starts_with("__Host-shaftbook_session=")
            && set.ends_with("; Path=/; Max-Age=43200; HttpOnly; SameSite=Strict; Secure"),
        "{set}"
    );
    let asked = |cookie: &str| {
        office.ask(&format!("GET /people\nx-forwarded-proto: https\ncookie: {cookie}"), None, b"").status
    };
    assert_eq!((asked(&plain), asked(&cookie(&answer))), (303, 200));
}

#[test]
fn a_wrong_name_and_a_wrong_password_are_told_in_the_same_words() {
    let office = Office::open();
    manager(&office);
    let told = [("d.pike", "wrong"), ("nobody", PASSWORD), ("x'+OR+'1'='1", "x")]
        .map(|(name, password)| sign_in(&office, name, password, "").told());
    expect![[r#"
        403 sign-in-wrong
        The name or the password is not right.
        Nobody was let in; nothing was changed.
        Check name and password. Who has lost a password asks a manager of the office for a new invitation.
    "#]]
    .assert_eq(&told[0]);
    assert_eq!((&told[0], &told[0]), (&told[1], &told[2]));
}

#[test]
fn guessing_a_password_is_slowed_and_the_right_one_waits_too() {
    let office = Office::open();
    manager(&office);
    for _ in 0..5 {
        assert_eq!(sign_in(&office, "d.pike", "wrong", "").refusal().code, "sign-in-wrong");
    }
    let answer = sign_in(&office, "d.pike", PASSWORD, "");
    assert_eq!(answer.refusal().code, "too-many");
    let wait: u64 = answer.header("retry-after").parse().expect("seconds");
    assert!((50..=61).contains(&wait), "{wait}");
}

/// Five tries are free at an office, however many servers it has, and a new start gives no others.
#[test]
fn whoever_guesses_has_no_further_tries_at_another_server() {
    let mut office = Office::on_a_server();
    manager(&office);
    let other = office.beside();
    let guess = |at: std::net::SocketAddr, office: &Office| {
        let head = format!("POST /people/sign-in\n{OWN}");
        office.ask_at((at, &head), None, b"name=d.pike&password=wrong").refusal().code
    };
    let both = [office.address(), other.address()];
    let guesses: Vec<String> = (0..5).map(|turn| guess(both[turn % 2], &office)).collect();
    assert_eq!(guesses, ["sign-in-wrong"; 5]);
    assert_eq!(both.map(|at| guess(at, &office)), ["too-many", "too-many"]);
    other.stop();
    office.restart();
    assert_eq!(guess(office.address(), &office), "too-many");
}

/// Wrong tries from many addresses slow a name down, but not from where that person signed in before.
#[test]
fn guessing_a_name_from_everywhere_does_not_keep_its_owner_out() {
    let office = Office::with(|site| site.behind_proxy = true);
    manager(&office);
    let from = |address: &str, password: &str| {
        let head = format!("POST /people/sign-in\n{OWN}\nx-forwarded-for: {address}");
        let answer = office.ask(&head, None, format!("name=d.pike&password={password}").as_bytes());
        if answer.status == 303 { "in".to_owned() } else { answer.refusal().code }
    };
    assert_eq!(from("192.0.2.7", PASSWORD), "in");
    let guesses: Vec<String> = (1..=6).map(|last| from(&format!("198.51.100.{last}"), "wrong")).collect();
    assert_eq!(guesses[..5], vec!["sign-in-wrong"; 5]);
    assert_eq!(guesses[5], "too-many", "the name waits, wherever it is tried from");
    assert_eq!(from("203.0.113.5", PASSWORD), "too-many");
    assert_eq!(from("192.0.2.7", PASSWORD), "in");
}

#[test]
fn a_password_is_long_and_typed_twice_the_same() {
    let office = Office::open();
    let code = invited(&office, "d.pike", &[]);
    let told = |new: &str, again: &str| {
        post(&office, "/people/invited", "x=1", &format!("invitation={code}&new={new}&again={again}"))
            .refusal()
            .what
    };
    assert_eq!(told("short", "short"), "A password has 15 to 200 characters; this has 5.");
    assert_eq!(told(PASSWORD, "another"), "The two passwords are not the same.");
    assert_eq!(
        told(&"a".repeat(201), &"a".repeat(201)),
        "A password has 15 to 200 characters; this has 201."
    );
    // The invitation still serves.
    let form = format!("invitation={code}&new={PASSWORD}&again={PASSWORD}");
    assert_eq!(post(&office, "/people/invited", "x=1", &form).status, 303);
}

#[test]
fn a_changed_password_signs_every_other_browser_out() {
    let office = Office::open();
    let here = manager(&office);
    let there = cookie(&sign_in(&office, "d.pike", PASSWORD, ""));
    let change =
        |old: &str| format!("password={old}&new=another+rig+another+day&again=another+rig+another+day");
    assert_eq!(post(&office, "/people/password", &here, &change("wrong")).refusal().code, "sign-in-wrong");
    let changed = post(&office, "/people/password", &here, &change(PASSWORD));
    assert_eq!(changed.status, 303);
    assert_eq!(
        [&here, &there, &cookie(&changed)].map(|cookie| page(&office, "/people", cookie).status),
        [303, 303, 200]
    );
    assert_eq!(sign_in(&office, "d.pike", PASSWORD, "").refusal().code, "sign-in-wrong");
}

/// A manager of one job is nobody on another, whatever the form says, and makes no new invitation for somebody there.
#[test]
fn a_manager_of_a_job_reaches_no_further_than_that_job() {
    let office = Office::open();
    let chief = manager(&office);
    let one = comes(&office, "a.hall", &[("J-1", Role::Manager)]);
    let give = |path: &str, form: &str| post(&office, path, &one, form);
    assert_eq!(give("/people/jobs/J-2/give", "name=a.hall&role=manager").refusal().code, "no-role");
    assert_eq!(give("/people/jobs/J-1/give", "name=a.hall&role=reader&job=J-2").status, 303);
    assert_eq!(give("/people/jobs/J-1/give", "name=a.hall&role=manager&job=").status, 303);
    let hall = store(&office).person_named("a.hall").expect("asked").expect("somebody").0.number;
    let roles = store(&office).person(hall).expect("asked").expect("somebody").roles;
    assert!(roles.0.iter().all(|(job, _)| job == "J-1"), "{roles:?}");
    // The empty name in an address is no way to every job.
    assert!(matches!(give("/people/jobs//give", "name=a.hall&role=manager").status, 403 | 404));
    assert_eq!(give("/people/jobs/%20/give", "name=a.hall&role=manager").refusal().code, "no-role");
    // The chief is given a role there, and no invitation into the chief's place is shown.
    let given = give("/people/jobs/J-1/give", "name=d.pike&role=reader");
    assert_eq!((given.status, given.header("location")), (303, "/people/jobs/J-1"));
    assert_eq!(page(&office, "/people", &chief).status, 200);
    assert_eq!(give("/people/office/people/1/invite", "").refusal().code, "no-role");
}

#[test]
fn the_last_manager_stays_and_is_told_why() {
    let office = Office::open();
    let chief = manager(&office);
    let take = |cookie: &str, number: i64| {
        post(&office, "/people/office/take", cookie, &format!("person={number}&role=manager"))
    };
    expect![[r#"
        409 last-manager
        Nobody but d.pike manages the office and comes in.
        Nothing was changed: nobody lost a role, and nobody was let go.
        Make somebody else manager of every job, wait until that person came in once, and do it again.
    "#]]
    .assert_eq(&take(&chief, 1).told());
    let gone = post(&office, "/people/office/people/1/let-go", &chief, "");
    assert_eq!(gone.refusal().code, "last-manager");
    assert_eq!(page(&office, "/people/office", &chief).status, 200, "still a manager, still signed in");
    // Somebody who only was invited is nobody to leave it to.
    assert_eq!(post(&office, "/people/office/give", &chief, "name=a.hall&role=manager").status, 200);
    assert_eq!(take(&chief, 1).refusal().code, "last-manager");
    let hall = comes(&office, "a.hall", &[]);
    assert_eq!((take(&chief, 1).status, page(&office, "/people/office", &hall).status), (303, 200));
}

/// Both press at the same moment. Whoever comes second finds the other gone, or is the last.
#[test]
fn two_managers_who_let_each_other_go_at_the_same_moment_leave_one() {
    let office = Office::open();
    let both = [(manager(&office), 2), (comes(&office, "a.hall", &[(EVERY_JOB, Role::Manager)]), 1)];
    std::thread::scope(|scope| {
        for (cookie, other) in &both {
            let path = format!("/people/office/people/{other}/let-go");
            scope.spawn({
                let office = &office;
                move || post(office, &path, cookie, "")
            });
        }
    });
    let people = store(&office).people_on(EVERY_JOB).expect("asked");
    let left = people.iter().filter(|known| known.roles.everywhere(&[Role::Manager])).count();
    assert_eq!(left, 1, "{people:?}");
}

/// A manager looks at a signature in another's name, sees why it is aside, and lets it in; or gives the name.
#[test]
fn a_signature_in_another_name_waits_for_a_manager_with_the_reason_told() {
    use testkit::{Tablet, body};
    let office = Office::open();
    let (chief, hall) = (manager(&office), comes(&office, "a.hall", &[("J-1", Role::Inspector)]));
    let token = device_of(&office, &hall, 1);
    let mut tablet = Tablet::new(1);
    let mut sign = |name: &str| {
        let entry = tablet.write("10:41", body("signed", &[("name", name), ("role", "inspector")]));
        office.push(&token, &crate::office::line(&entry)).answers.remove(0)
    };
    let refused = sign("<B. Vane>").refusal.expect("aside");
    expect![[r#"
        It stands in the name of <B. Vane>, and this device is that of a.hall. A manager of the office writes down which name a.hall signs with.
        The entry is kept in the office, marked, and is not part of the record; it stays on the device too.
        A manager of the job lets it in, with a reason. A device that was let go is paired again before it writes more.
    "#]]
    .assert_eq(&format!("{}\n{}\n{}\n", refused.what, refused.meaning, refused.next));
    let aside = page(&office, "/people/jobs/J-1/aside", &chief).text();
    assert!(aside.contains("(in the name of &lt;B. Vane&gt;, who does not hold the device)"), "{aside}");

    // The name is for a manager of the office to give.
    assert_eq!(sign("Anna Hall").refusal.expect("aside").code, "set-aside");
    let give = |cookie: &str, name: &str| {
        post(&office, "/people/office/names", cookie, &format!("person=2&name={name}"))
    };
    assert_eq!(give(&hall, "Anna+Hall").refusal().code, "no-role");
    assert_eq!(give(&chief, "--").refusal().code, "malformed");
    assert_eq!(give(&chief, "Anna+Hall").status, 303);
    assert!(page(&office, "/people", &hall).text().contains("<strong>Anna Hall</strong>"));
    assert_eq!(sign("ANNA HALL").state, wire::http::State::Stored);
    let told = store(&office).sign_ins(i64::MAX, 1).expect("asked").remove(0).1;
    assert_eq!((told.what.as_str(), told.about.as_str()), ("name-given", "signs as Anna Hall, by d.pike"));

    // What is aside stays so until it is let in.
    let let_in = "device=1&up_to=9&reason=Seen+with+both.";
    assert_eq!(post(&office, "/people/jobs/J-1/aside/let-in", &chief, let_in).status, 303);
    assert!(page(&office, "/people/jobs/J-1/aside", &chief).text().contains("Nothing is set aside."));
}

#[test]
fn a_person_lets_go_of_no_other_persons_device() {
    let office = Office::open();
    let (chief, hall) = (manager(&office), comes(&office, "a.hall", &[("J-1", Role::Inspector)]));
    let shown = post(&office, "/people/codes", &chief, "").text();
    let code = shown.split("class=\"code\">").nth(1).expect("a code").split('<').next().expect("a code");
    assert_eq!(office.ask("POST /api/v1/pair", None, &pairing(code, 1)).status, 200);
    let other = post(&office, "/people/devices/1/let-go", &hall, "");
    assert_eq!(other.refusal().what, "You have no device 1.");
    assert_eq!(post(&office, "/people/devices/1/let-go", &chief, "").status, 303);
}

/// A photo is shown with the record it is in, and is nowhere else, also to whoever knows its name.
#[test]
fn a_photo_is_given_to_those_alone_who_may_read_a_job_that_names_it() {
    use testkit::{Tablet, body};
    let office = Office::open();
    manager(&office);
    let hall = comes(&office, "a.hall", &[("J-1", Role::Inspector)]);
    let lowe = comes(&office, "r.lowe", &[("J-2", Role::Reader)]);
    let (hall, lowe) = (device_of(&office, &hall, 1), device_of(&office, &lowe, 2));
    let picture = b"a picture of the ticket";
    let name = record::entry::FileHash(wire::sha256(picture)).to_string();
    let photo = |tablet: Tablet| {
        let entry =
            tablet.clone().write("10:41", body("photo", &[("file", &name), ("caption", "the ticket")]));
        crate::office::line(&entry)
    };
    let get = |token: &str| office.get(&format!("/api/v1/photos/{name}"), token);
    assert_eq!(office.ask(&format!("PUT /api/v1/photos/{name}"), Some(&hall), picture).status, 204);
    assert_eq!(get(&hall).status, 404, "no entry shows it yet");
    assert_eq!(office.push(&hall, &photo(Tablet::new(1))).answers[0].state, wire::http::State::Stored);
    assert_eq!(get(&hall).bytes, picture);
    // Told in the words of one that never came.
    let none = |told: String| told.replace(&name[..8], "…").replace("00000000", "…");
    let never = office.get(&format!("/api/v1/photos/{}", "0".repeat(64)), &lowe);
    assert_eq!(none(get(&lowe).told()), none(never.told()));
    // In a record of the other job too.
    let other = photo(Tablet::new(3).of_job("J-2"));
    office.desk().add(&[wire::read(&other).expect("a line")]).expect("added");
    assert_eq!(get(&lowe).bytes, picture);
}

/// A contractor's quality staff adds words and alters nothing.
#[test]
fn contractors_quality_comments_and_corrects_nothing() {
    use testkit::{Tablet, body};
    let office = Office::open();
    let quality = comes(&office, "q.lane", &[("J-1", Role::Quality)]);
    let mut tablet = Tablet::new(3);
    let remark = tablet.write("10:41", body("remark", &[("text", "seen by us too")]));
    let weather = tablet.write("10:42", body("weather", &[("text", "rain")]));
    let head = format!("POST /api/v1/entries\n{OWN}\ncookie: {quality}");
    let answer = office.ask(&head, None, lines(&[remark, weather]).as_bytes());
    let pushed: wire::http::Pushed = serde_json::from_slice(&answer.bytes).expect("answers");
    let refused = pushed.answers[1].refusal.as_ref().expect("refused");
    assert_eq!((pushed.answers[0].state, refused.code.as_str()), (wire::http::State::Stored, "no-role"));
}

/// Every text a person can type that these pages show, as markup: a job, a device, a reason, an author, a name of a shaft.
#[test]
fn what_somebody_typed_is_shown_as_text() {
    let odd = "<img src=x onerror=alert(1)>\"'&";
    let office = Office::with(|site| site.office = "<img src=x onerror=alert(1)>\"'&".to_owned());
    let chief = manager(&office);
    let entry = testkit::Tablet::new(7)
        .of_job(odd)
        .about(Some(odd))
        .write("10:41", testkit::body("remark", &[("text", odd)]));
    office.desk().add(&[record::Held::Known(entry)]).expect("added");
    let shown = post(&office, "/people/codes", &chief, "").text();
    let code = shown.split("class=\"code\">").nth(1).expect("a code").split('<').next().expect("a code");
    let device = testkit::key(1).device().to_string();
    let pair = serde_json::json!({ "code": code, "name": odd, "device": device }).to_string();
    let answer = office.ask("POST /api/v1/pair", None, pair.as_bytes());
    let token = serde_json::from_slice::<Paired>(&answer.bytes).expect("paired").token;
    let in_address = "%3Cimg%20src%3Dx%20onerror%3Dalert(1)%3E%22%27%26";
    let in_form = "%3Cimg+src%3Dx+onerror%3Dalert(1)%3E%22%27%26";
    let given =
        post(&office, "/people/office/give", &chief, &format!("name=a.hall&role=reader&job={in_form}"));
    assert_eq!(given.status, 200);
    assert_eq!(post(&office, "/people/office/devices/1/let-go", &chief, "").status, 303);
    let second = testkit::Tablet::new(8)
        .of_job(odd)
        .about(Some(odd))
        .write("10:42", testkit::body("remark", &[("text", odd)]));
    let aside = office.push(&token, &crate::office::line(&second));
    assert_eq!(aside.answers[0].refusal.as_ref().map(|refusal| refusal.code.as_str()), Some("set-aside"));
    let pages = [
        "/people".to_owned(),
        "/people/office".to_owned(),
        "/people/office/sign-ins".to_owned(),
        format!("/people/jobs/{in_address}"),
        format!("/people/jobs/{in_address}/aside"),
        "/people/sign-in".to_owned(),
        "/people/invited".to_owned(),
        "/desk".to_owned(),
        format!("/desk/jobs/{in_address}/aside"),
        format!("/people/nowhere/{in_address}"),
    ];
    let let_in = format!("/people/jobs/{in_address}/aside/let-in");
    let mut texts: Vec<String> = pages.iter().map(|path| page(&office, path, &chief).text()).collect();
    assert_eq!(post(&office, &let_in, &chief, &format!("device=1&up_to=9&reason={in_form}")).status, 303);
    texts.push(page(&office, "/people/office/sign-ins", &chief).text());
    texts.push(given.text());
    for (at, text) in texts.iter().enumerate() {
        assert!(!text.contains("<img") && text.contains("&lt;img"), "page {at}: {text}");
        assert!(!text.contains("onerror=\"") && !text.contains("style="), "page {at}");
    }
    assert_eq!(
        texts
            .iter()
            .filter(|text| text.contains("&lt;img src=x onerror=alert(1)&gt;&quot;&#39;&amp;"))
            .count(),
        12
    );
}

/// Whatever is done, no secret is in the journal nor in any file of the office.
#[test]
fn no_secret_lies_in_the_journal_or_the_folder() {
    let mut office = Office::open();
    let code = invited(&office, "d.pike", &[(EVERY_JOB, Role::Manager)]);
    let form = format!("invitation={code}&new={PASSWORD}&again={PASSWORD}");
    let session = cookie(&post(&office, "/people/invited", "x=1", &form));
    sign_in(&office, PASSWORD, "a-password-in-the-wrong-field", "");
    sign_in(&office, "d.pike", "wrong-password-typed-here", "");
    post(&office, "/people/sign-in", "", "name=only-half-a-form-with-a-name");
    let shown = post(&office, "/people/codes", &session, "").text();
    let pairing_code =
        shown.split("class=\"code\">").nth(1).expect("a code").split('<').next().expect("a code");
    let answer = office.ask("POST /api/v1/pair", None, &pairing(pairing_code, 1));
    let token = serde_json::from_slice::<Paired>(&answer.bytes).expect("paired").token;
    // Something goes wrong inside, so that the journal has lines.
    std::fs::remove_dir_all(office.folder.path().join("photos")).expect("removed");
    office.ask(&format!("PUT /api/v1/photos/{}", "0".repeat(64)), Some(&token), b"x");
    post(&office, "/people/office/give", &session, "name=a.hall&role=reader");
    let journal = format!("{:?}", office.happened());
    office.running.take().expect("running").stop();
    let typed = PASSWORD.replace('+', " ");
    let secrets = [
        code.as_str(),
        session.split('=').nth(1).expect("a token"),
        token.as_str(),
        pairing_code,
        typed.as_str(),
        "a-password-in-the-wrong-field",
        "wrong-password-typed-here",
        "only-half-a-form-with-a-name",
    ];
    assert!(!journal.is_empty());
    let files = std::fs::read_dir(office.folder.path()).expect("a folder").flatten();
    let dump = office.server.as_ref().map(|server| server.cluster().run("pg_dump", &[server.name()]));
    let dump = dump.map(|dump| dump.expect("dumped").into_bytes());
    let held: Vec<Vec<u8>> = files.filter_map(|file| std::fs::read(file.path()).ok()).chain(dump).collect();
    assert!(held.iter().any(|bytes| bytes.windows(6).any(|window| window == b"d.pike")), "the right files");
    for secret in secrets {
        assert!(!journal.contains(secret), "{secret}: {journal}");
        let lies =
            held.iter().any(|bytes| bytes.windows(secret.len()).any(|window| window == secret.as_bytes()));
        assert!(!lies, "{secret} lies in the folder");
    }
}

#[test]
fn a_form_that_is_too_large_or_comes_too_slowly_is_refused() {
    use std::io::{Read, Write};
    let limits =
        server::Limits { patience: std::time::Duration::from_millis(200), ..server::Limits::default() };
    let office = Office::limited(limits);
    manager(&office);
    let large = format!("name=d.pike&password={}", "a".repeat(20_000));
    assert_eq!(post(&office, "/people/sign-in", "", &large).refusal().code, "too-large");
    let mut slow = std::net::TcpStream::connect(office.address()).expect("connected");
    let head = format!(
        "POST /people/sign-in HTTP/1.1\r\nhost: {}\r\n{OWN}\r\ncontent-length: 40\r\n\r\nname=",
        office.address()
    );
    slow.write_all(head.as_bytes()).expect("sent");
    let mut told = String::new();
    slow.read_to_string(&mut told).expect("an answer");
    assert!(told.starts_with("HTTP/1.1 408") && told.contains("too-slow"), "{told}");
}

#[test]
fn a_refusal_in_a_browser_is_a_page_in_the_same_words() {
    let office = Office::open();
    manager(&office);
    let reader = comes(&office, "r.lowe", &[("J-1", Role::Reader)]);
    let refused = page(&office, "/people/office", &reader);
    assert_eq!((refused.status, refused.header("content-type")), (403, "text/html; charset=utf-8"));
    for part in [
        "r.lowe has no role that allows this.",
        "Nothing was shown or changed.",
        "Ask a manager of the job for the role.",
        "no-role",
    ] {
        assert!(refused.text().contains(part), "{part}");
    }
}
