//! Passkeys as the library proves them: which office takes them, what is asked of a device, what its answer is worth.
//!
//! A passkey is bound to the name the office is reached at. A browser gives one out only to a page of that name over HTTPS, or on
//! the machine itself by the name `localhost`; an address in figures has no name.
//!
//! Words: *question* = what a browser is asked, with a challenge that serves once; *state* = what has to be known again when the
//! answer comes.
//! Never: hand the state out; take an answer without the device having seen who is there.

use store::Person;
use webauthn_rs::prelude::{
    AuthenticationResult, DiscoverableAuthentication, Passkey, PasskeyRegistration, PublicKeyCredential,
    RegisterPublicKeyCredential, Url, Uuid, WebauthnError,
};
use webauthn_rs::{Webauthn, WebauthnBuilder};

/// Takes passkeys for an office.
pub(crate) struct Taking {
    webauthn: Webauthn,
    origin: String,
}

/// A question and its state, both as JSON.
pub(crate) struct Asked {
    pub(crate) question: serde_json::Value,
    pub(crate) state: String,
}

/// A new passkey.
pub(crate) struct Made {
    /// What its device calls the person by.
    pub(crate) handle: String,
    /// The id its device gave it, in hexadecimal digits.
    pub(crate) id: String,
    /// What is kept of it.
    pub(crate) key: String,
}

/// What an answer was worth.
pub(crate) enum Worth {
    /// It is that passkey's, which the library keeps as this from now on.
    Right(String),
    /// It is not.
    Wrong(String),
    /// Its counter went back: the passkey may have been copied.
    Copied,
}

/// An answer cannot be taken, with what only the journal is told.
#[derive(Debug)]
pub(crate) struct NotTaken(pub(crate) String);

impl From<WebauthnError> for NotTaken {
    fn from(error: WebauthnError) -> Self {
        NotTaken(format!("{error:?}"))
    }
}

impl From<serde_json::Error> for NotTaken {
    fn from(error: serde_json::Error) -> Self {
        NotTaken(error.to_string())
    }
}

impl Taking {
    /// For an office that is reached at an address; `None`: by no name a passkey could be bound to.
    pub(crate) fn at(address: &str, office: &str) -> Option<Self> {
        let origin = Url::parse(address).ok()?;
        let name = origin.domain()?.to_owned();
        let safe = origin.scheme() == "https" || (origin.scheme() == "http" && name == "localhost");
        let builder = WebauthnBuilder::new(&name, &origin).ok().filter(|_| safe)?;
        let webauthn = builder.rp_name(office).build().ok()?;
        Some(Taking { webauthn, origin: origin.origin().ascii_serialization() })
    }

    /// The pages that may ask a browser for one of this office's passkeys.
    pub(crate) fn origin(&self) -> &str {
        &self.origin
    }

    /// Asks for a new passkey of a person, on a device that has none of them yet.
    pub(crate) fn ask_for_new(
        &self,
        person: &Person,
        (handle, known): (Uuid, &[String]),
    ) -> Result<Asked, NotTaken> {
        let known: Vec<Passkey> =
            known.iter().map(|key| serde_json::from_str(key)).collect::<Result<_, _>>()?;
        let known = known.iter().map(|key| key.cred_id().clone()).collect();
        let shown = person.signs_as.as_deref().unwrap_or(&person.name);
        let (question, state) =
            self.webauthn.start_passkey_registration(handle, &person.name, shown, Some(known))?;
        let mut question = serde_json::to_value(&question.public_key)?;
        // One that its device finds by itself, so that nobody has to type a name.
        question["authenticatorSelection"]["residentKey"] = "required".into();
        question["authenticatorSelection"]["requireResidentKey"] = true.into();
        Ok(Asked { question, state: serde_json::to_string(&(handle.simple().to_string(), state))? })
    }

    /// The new passkey of an answer.
    pub(crate) fn new_of(&self, answer: &RegisterPublicKeyCredential, state: &str) -> Result<Made, NotTaken> {
        let (handle, state): (String, PasskeyRegistration) = serde_json::from_str(state)?;
        let passkey = self.webauthn.finish_passkey_registration(answer, &state)?;
        Ok(Made { handle, id: digits(passkey.cred_id().as_ref()), key: serde_json::to_string(&passkey)? })
    }

    /// Asks for any passkey of this office.
    pub(crate) fn ask_for_any(&self) -> Result<Asked, NotTaken> {
        let (question, state) = self.webauthn.start_discoverable_authentication()?;
        let question = serde_json::to_value(&question.public_key)?;
        Ok(Asked { question, state: serde_json::to_string(&state)? })
    }

    /// Whose passkey an answer says it is of: the handle of the person and the id of the passkey.
    pub(crate) fn named_by(&self, answer: &PublicKeyCredential) -> Result<(String, String), NotTaken> {
        let (handle, id) = self.webauthn.identify_discoverable_authentication(answer)?;
        Ok((handle.simple().to_string(), digits(id)))
    }

    /// Compares an answer with the passkey it names.
    pub(crate) fn worth(
        &self,
        answer: &PublicKeyCredential,
        state: &str,
        key: &str,
    ) -> Result<Worth, NotTaken> {
        let state: DiscoverableAuthentication = serde_json::from_str(state)?;
        let mut passkey: Passkey = serde_json::from_str(key)?;
        let compared = self.webauthn.finish_discoverable_authentication_v2(answer, state, &passkey);
        match compared {
            Ok(result) if result.user_verified() => Ok(Worth::Right(kept(&mut passkey, &result)?)),
            Ok(_) => Ok(Worth::Wrong("the device did not see who was there".to_owned())),
            Err(WebauthnError::CredentialPossibleCompromise) => Ok(Worth::Copied),
            Err(error) => Ok(Worth::Wrong(format!("{error:?}"))),
        }
    }
}

fn kept(passkey: &mut Passkey, result: &AuthenticationResult) -> Result<String, NotTaken> {
    passkey.update_credential(result);
    Ok(serde_json::to_string(passkey)?)
}

/// Bytes in hexadecimal digits.
fn digits(bytes: &[u8]) -> String {
    bytes.iter().map(|byte| format!("{byte:02x}")).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(address: &str, expected: Option<&str>) {
        let taking = Taking::at(address, "Office");
        assert_eq!(taking.as_ref().map(Taking::origin), expected, "{address}");
    }

    #[test]
    fn an_office_takes_passkeys_where_a_browser_gives_them_out() {
        check("https://office.example", Some("https://office.example"));
        check("https://office.example:7420", Some("https://office.example:7420"));
        check("http://localhost:7420", Some("http://localhost:7420"));
        check("http://office.example", None);
        check("http://127.0.0.1:7420", None);
        check("https://192.0.2.7", None);
        check("https://[2001:db8::7]", None);
        check("http://localhost.example", None);
        check("office.example", None);
    }
}
