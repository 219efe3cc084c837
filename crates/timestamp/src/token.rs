//! A token as it was read: what it says, proved against its own signature.

use crate::doubt::Doubt;
use crate::hash::hashed;
use crate::signed::Signed;
use quantity::Moment;
use rasn::types::Integer;
use rasn_cms::tsp::{PkiStatus, PkiStatusInfo, TimeStampResp, TstInfo};

/// The word of a service that some bytes were there by a time.
#[derive(Debug, Clone)]
pub struct Token {
    info: TstInfo,
    pub(crate) signed: Signed,
}

impl Token {
    /// Reads the answer of a service, and proves that its token is whole: what was signed is what it says, with the key of
    /// the certificate inside. Whose certificate that is, [`Token::trust`](crate::Trust) says.
    ///
    /// # Errors
    /// No token, or one that was altered.
    ///
    /// **Source**: [RFC-3161], section 2.4.2; [RFC-5652], section 5.
    pub fn read(answer: &[u8]) -> Result<Self, Doubt> {
        let answer: TimeStampResp = rasn::der::decode(answer).map_err(Doubt::unreadable)?;
        let granted = matches!(answer.status.status, PkiStatus::Granted | PkiStatus::GrantedWithMods);
        let token = answer.time_stamp_token.filter(|_| granted).ok_or_else(|| refused(&answer.status))?;
        let signed = Signed::read(&token)?;
        let info = rasn::der::decode(&signed.content).map_err(Doubt::unreadable)?;
        Ok(Token { info, signed })
    }

    /// When the service says the bytes were there, in UTC, to the second.
    pub fn time(&self) -> Moment {
        Moment::at(self.info.gen_time.timestamp(), 0)
    }

    /// The number the service gave the token, in hexadecimal digits.
    pub fn number(&self) -> String {
        // Tag and length come first: a number has 20 bytes at most ([RFC-3161], section 2.4.2), so its length is one byte.
        let written = rasn::der::encode(&self.info.serial_number).unwrap_or_default();
        let digits: String = written.iter().skip(2).map(|byte| format!("{byte:02x}")).collect();
        digits.trim_start_matches('0').to_owned()
    }

    /// The name in the certificate the token was signed with, its parts separated by commas.
    pub fn service(&self) -> String {
        self.signed.signer_name()
    }

    /// Whether the token is about these bytes.
    ///
    /// # Errors
    /// Other bytes, or a hash nobody here knows.
    pub fn covers(&self, bytes: &[u8]) -> Result<(), Doubt> {
        let imprint = &self.info.message_imprint;
        let wanted = hashed(&imprint.hash_algorithm.algorithm, bytes)?;
        if imprint.hashed_message[..] == wanted[..] { Ok(()) } else { Err(Doubt::OtherBytes) }
    }

    /// Whether the token answers the query with this number.
    ///
    /// # Errors
    /// It answers another one.
    pub fn answers(&self, once: u64) -> Result<(), Doubt> {
        match &self.info.nonce {
            Some(nonce) if *nonce == Integer::from(once) => Ok(()),
            _ => Err(Doubt::OtherQuery),
        }
    }
}

/// The words of a service that gave no token.
fn refused(status: &PkiStatusInfo) -> Doubt {
    let words = status.status_string.iter().flatten().map(ToString::to_string);
    let words: Vec<String> = words.collect();
    let said = if words.is_empty() { format!("{:?}", status.status) } else { words.join(" ") };
    Doubt::Refused(said)
}
