//! Passwords: what is kept of one, and whether one is right.
//!
//! Argon2id (RFC 9106) in the PHC string form, so that the parameters stand beside each and can rise later. The salt
//! is drawn by the caller.
//!
//! Never: keep, compare or print a password itself.

use argon2::password_hash::{PasswordHash, PasswordHasher, PasswordVerifier, SaltString};
use argon2::{Algorithm, Argon2, Params, Version};

/// Memory in KiB, passes, lanes: 19 MiB, 2, 1, the least the OWASP Password Storage Cheat Sheet names for Argon2id
/// ("19 MiB of memory, an iteration count of 2, and 1 degree of parallelism"). RFC 9106 section 4 would have
/// 64 MiB and 3 passes in 4 lanes where memory allows; an office may be a small machine with many at the door at once.
const COST: (u32, u32, u32) = (19 * 1024, 2, 1);

/// Bytes of salt; RFC 9106 section 3.1: 16 are recommended.
pub const SALT: usize = 16;

/// What stands in for the secret of a name nobody has: a hash no password is known of. Comparing with it takes as long
/// as comparing with a real one, so the time of an answer does not tell which names there are.
const NOBODY: &str =
    "$argon2id$v=19$m=19456,t=2,p=1$AAAAAAAAAAAAAAAAAAAAAA$AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA";

fn argon2() -> Option<Argon2<'static>> {
    let (memory, passes, lanes) = COST;
    let params = Params::new(memory, passes, lanes, None).ok()?;
    Some(Argon2::new(Algorithm::Argon2id, Version::V0x13, params))
}

/// What is kept of a password, with a salt of 16 random bytes; PHC text. `None`: it could not be made, as when the machine
/// has not the memory.
pub fn hidden_password(password: &str, salt: [u8; SALT]) -> Option<String> {
    let salt = SaltString::encode_b64(&salt).ok()?;
    Some(argon2()?.hash_password(password.as_bytes(), &salt).ok()?.to_string())
}

/// Whether a password is the one that is kept. `None` as what is kept: nobody has that name, or no password was chosen
/// yet; it takes as long and is never right.
pub fn is_password(password: &str, kept: Option<&str>) -> bool {
    let Ok(hash) = PasswordHash::new(kept.unwrap_or(NOBODY)) else { return false };
    let Some(argon2) = argon2() else { return false };
    argon2.verify_password(password.as_bytes(), &hash).is_ok() && kept.is_some()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_password_is_right_or_not() {
        let kept = hidden_password("rain on the rig again", [7; SALT]).expect("hidden");
        assert!(is_password("rain on the rig again", Some(&kept)));
        assert!(!is_password("rain on the rig again ", Some(&kept)));
        assert!(!is_password("", Some(&kept)));
        assert!(!is_password("rain on the rig again", None));
        assert!(!is_password("rain on the rig again", Some("rain on the rig again")));
    }

    /// The parameters stand in what is kept, and the salt makes two of one password differ.
    #[test]
    fn what_is_kept_says_how_it_was_made_and_not_what_it_is() {
        let [one, two] =
            [1, 2].map(|salt| hidden_password("rain on the rig again", [salt; SALT]).expect("hidden"));
        assert!(one.starts_with("$argon2id$v=19$m=19456,t=2,p=1$"), "{one}");
        assert_ne!(one, two);
        assert!(!one.contains("rain"));
    }

    /// The hash that stands for nobody is one the library takes the same pains over.
    #[test]
    fn nobody_is_compared_like_anybody() {
        let hash = PasswordHash::new(NOBODY).expect("a hash");
        let kept = hidden_password("rain on the rig again", [7; SALT]).expect("hidden");
        let real = PasswordHash::new(&kept).expect("a hash");
        assert_eq!((hash.algorithm, &hash.params), (real.algorithm, &real.params));
        assert_eq!(hash.hash.map(|hash| hash.len()), real.hash.map(|hash| hash.len()));
    }

    /// RFC 9106 section 5.3 has a test vector for Argon2id; the library's own tests run it. Here it is run through the
    /// library as this project builds it. Source: RFC 9106, read from memory.
    #[test]
    fn the_library_gives_the_tag_of_the_standard() {
        let params = argon2::ParamsBuilder::new()
            .m_cost(32)
            .t_cost(3)
            .p_cost(4)
            .data(argon2::AssociatedData::new(&[4; 12]).expect("data"))
            .build()
            .expect("parameters");
        let argon2 =
            Argon2::new_with_secret(&[3; 8], Algorithm::Argon2id, Version::V0x13, params).expect("a secret");
        let mut tag = [0; 32];
        argon2.hash_password_into(&[1; 32], &[2; 16], &mut tag).expect("a tag");
        let shown: String = tag.iter().map(|byte| format!("{byte:02x}")).collect();
        assert_eq!(shown, "0d640df58d78766c08c037a34a8b53c9d01ef0452d75b65eb52520e96b01e659");
    }
}
