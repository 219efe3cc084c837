//! Photos, each a file named by the SHA-256 of its bytes.
//!
//! Files beside the database, not rows in it: a photo of some megabytes would hold up the one writer, and
//! a backup of a season would copy every photo again. A name is given only to what is whole and synced.
//!
//! ```text
//! photos/4f/4f1c…e2     the bytes, as they came
//! photos/part-7         one on its way in; left by a broken connection, removed at the next start
//! ```
//! Never: alter or erase a photo.

use crate::backup::sync_folder;
use crate::error::StoreError;
use record::entry::FileHash;
use std::fs::File;
use std::io::{ErrorKind, Read};
use std::path::{Path, PathBuf};

/// How the name of an unfinished photo begins.
const PART: &str = "part-";

/// The photos of an office.
#[derive(Debug, Clone)]
pub struct Photos {
    folder: PathBuf,
}

impl Photos {
    /// Opens a folder of photos, making it where there is none, and clears what never came in whole.
    ///
    /// # Errors
    /// When the folder cannot be made or read.
    pub fn open(folder: &Path) -> Result<Self, StoreError> {
        std::fs::create_dir_all(folder)?;
        for entry in std::fs::read_dir(folder)? {
            let entry = entry?;
            if entry.file_name().to_string_lossy().starts_with(PART) {
                std::fs::remove_file(entry.path())?;
            }
        }
        Ok(Photos { folder: folder.to_owned() })
    }

    /// A folder of photos as it is, for reading from it while another program takes photos in.
    pub fn at(folder: &Path) -> Self {
        Photos { folder: folder.to_owned() }
    }

    /// Where a photo lies, or would.
    pub fn path(&self, hash: &FileHash) -> PathBuf {
        let name = hash.to_string();
        self.folder.join(&name[..2]).join(name)
    }

    /// Where to write a photo on its way in; the number is the caller's, one for each at a time.
    pub fn part(&self, number: u64) -> PathBuf {
        self.folder.join(format!("{PART}{number}"))
    }

    /// Whether a photo is here.
    pub fn holds(&self, hash: &FileHash) -> bool {
        self.path(hash).is_file()
    }

    /// Those of these photos that are not here.
    pub fn missing(&self, hashes: &[FileHash]) -> Vec<FileHash> {
        hashes.iter().filter(|hash| !self.holds(hash)).copied().collect()
    }

    /// Gives a photo that came in its name, durably. Its bytes are hashed again from the file.
    ///
    /// # Errors
    /// `PhotoDiffers` when the bytes are not those of the name; the file is gone then. When it cannot be
    /// written.
    pub fn keep(&self, part: &Path, hash: &FileHash) -> Result<(), StoreError> {
        let file = File::open(part)?;
        file.sync_all()?;
        let found = digest(file)?;
        if found != *hash {
            std::fs::remove_file(part)?;
            return Err(StoreError::PhotoDiffers(found.to_string()));
        }
        let path = self.path(hash);
        let folder = path.parent().unwrap_or(&self.folder);
        std::fs::create_dir_all(folder)?;
        std::fs::rename(part, &path)?;
        sync_folder(folder)?;
        sync_folder(&self.folder)
    }

    /// The bytes of a photo, proved; `None`: it is not here.
    ///
    /// # Errors
    /// `PhotoAltered` when they are no longer those of its name; when it cannot be read.
    pub fn read(&self, hash: &FileHash) -> Result<Option<Vec<u8>>, StoreError> {
        let bytes = match std::fs::read(self.path(hash)) {
            Ok(bytes) => bytes,
            Err(error) if error.kind() == ErrorKind::NotFound => return Ok(None),
            Err(error) => return Err(error.into()),
        };
        let whole = wire::sha256(&bytes) == hash.0;
        if whole { Ok(Some(bytes)) } else { Err(StoreError::PhotoAltered(hash.to_string())) }
    }

    /// Every photo's name, in order.
    ///
    /// # Errors
    /// When the folder cannot be read.
    pub fn all(&self) -> Result<Vec<FileHash>, StoreError> {
        let mut hashes = Vec::new();
        for folder in std::fs::read_dir(&self.folder)? {
            let folder = folder?.path();
            if folder.is_dir() {
                for file in std::fs::read_dir(folder)? {
                    hashes.extend(FileHash::from_hex(&file?.file_name().to_string_lossy()));
                }
            }
        }
        hashes.sort();
        Ok(hashes)
    }

    /// Proves every photo; how many there are.
    ///
    /// # Errors
    /// `PhotoAltered` with the first that is not what its name says.
    pub fn check(&self) -> Result<usize, StoreError> {
        let all = self.all()?;
        for hash in &all {
            if digest(File::open(self.path(hash))?)? != *hash {
                return Err(StoreError::PhotoAltered(hash.to_string()));
            }
        }
        Ok(all.len())
    }

    /// Copies every photo that is not yet there to another folder of photos; how many were copied.
    ///
    /// # Errors
    /// When one is not what its name says or cannot be written.
    pub fn copy_to(&self, other: &Photos) -> Result<usize, StoreError> {
        let missing = other.missing(&self.all()?);
        for (number, hash) in missing.iter().enumerate() {
            let part = other.part(number as u64);
            std::fs::copy(self.path(hash), &part)?;
            other.keep(&part, hash).map_err(|error| match error {
                StoreError::PhotoDiffers(_) => StoreError::PhotoAltered(hash.to_string()),
                other => other,
            })?;
        }
        Ok(missing.len())
    }
}

fn digest(mut file: File) -> Result<FileHash, StoreError> {
    // A photo has a few megabytes at most, by the limit of whoever let it in.
    let mut bytes = Vec::new();
    file.read_to_end(&mut bytes)?;
    Ok(FileHash(wire::sha256(&bytes)))
}
