//! Roles: what somebody is on a job. What a role may do is decided at the door of the server, in one place.

/// What somebody is on a job.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Role {
    /// Writes the record at the rig.
    Inspector,
    /// Reviews it: the engineer.
    Reviewer,
    /// Quality staff of the contractor: reads and comments.
    Quality,
    /// Reads.
    Reader,
    /// Says who is who on the job, and lets in what was set aside.
    Manager,
}

impl Role {
    /// Every role.
    pub const ALL: &[Role] = &[Role::Inspector, Role::Reviewer, Role::Quality, Role::Reader, Role::Manager];

    /// The word it is kept as.
    pub fn word(self) -> &'static str {
        match self {
            Role::Inspector => "inspector",
            Role::Reviewer => "reviewer",
            Role::Quality => "contractor_quality",
            Role::Reader => "reader",
            Role::Manager => "manager",
        }
    }

    /// As people say it.
    pub fn spoken(self) -> &'static str {
        match self {
            Role::Quality => "contractor's quality",
            role => role.word(),
        }
    }

    /// The role of a word.
    pub fn named(word: &str) -> Option<Role> {
        Role::ALL.iter().copied().find(|role| role.word() == word)
    }
}

/// The job that stands for every job of the office, also those that come later.
pub const EVERY_JOB: &str = "";

/// The roles somebody has, each on a job.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Roles(pub Vec<(String, Role)>);

impl Roles {
    /// Whether one of these roles is held on a job, or on every job.
    pub fn on(&self, job: &str, wanted: &[Role]) -> bool {
        self.0.iter().any(|(on, role)| (on == job || on == EVERY_JOB) && wanted.contains(role))
    }

    /// Whether one of these roles is held on every job.
    pub fn everywhere(&self, wanted: &[Role]) -> bool {
        self.on(EVERY_JOB, wanted)
    }

    /// Whether one of these roles is held on any job at all.
    pub fn anywhere(&self, wanted: &[Role]) -> bool {
        self.0.iter().any(|(_, role)| wanted.contains(role))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_role_on_one_job_is_none_on_another_and_one_on_every_job_is_one_on_each() {
        let roles = Roles(vec![("J-1".to_owned(), Role::Reader), (EVERY_JOB.to_owned(), Role::Manager)]);
        assert!(roles.on("J-1", &[Role::Reader]) && !roles.on("J-2", &[Role::Reader]));
        assert!(roles.on("J-2", &[Role::Manager]) && roles.everywhere(&[Role::Manager]));
        assert!(!roles.everywhere(&[Role::Reader]) && roles.anywhere(&[Role::Reader]));
        assert!(!roles.anywhere(&[Role::Inspector]) && !Roles::default().anywhere(Role::ALL));
    }

    #[test]
    fn a_role_is_kept_as_its_word() {
        for role in Role::ALL {
            assert_eq!(Role::named(role.word()), Some(*role));
        }
        assert_eq!(Role::named("owner"), None);
    }
}
