//! Photos, each a file named by the SHA-256 of its bytes.
//!
//! Files beside the database, not rows in it: a photo of some megabytes would hold up the one writer, and
//! a backup of a season would copy every photo again. A name is given only to what is whole and synced.
//!
//! ```text
//! photos/4f/4f1c…e2     the bytes, as they came
//! photos/part-1/7       one on its way in; a folder for each program that takes photos in
//! photos/in-use.lock    held by each of them; who finds it free clears what earlier ones left
//! ```
//! Never: alter or erase a photo.

use crate::backup::sync_folder;
use crate::error::StoreError;
use record::entry::FileHash;
use std::fs::File;
use std::io::{ErrorKind, Read};
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// How the name of a folder of unfinished photos begins.
const PART: &str = "part-";

/// What the programs that take photos in hold.
const IN_USE: &str = "in-use.lock";

/// The photos of an office.
#[derive(Debug, Clone)]
pub struct Photos {
    folder: PathBuf,
    coming: Option<Arc<Coming>>,
}

/// Where one program has its unfinished photos.
#[derive(Debug)]
struct Coming {
    folder: PathBuf,
    _in_use: File,
}

impl Coming {
    fn begin(photos: &Path) -> Result<Self, StoreError> {
        let in_use = File::options().create(true).append(true).open(photos.join(IN_USE))?;
        if in_use.try_lock().is_ok() {
            clear(photos)?;
            in_use.unlock()?;
        }
        in_use.lock_shared()?;
        for number in 1.. {
            let folder = photos.join(format!("{PART}{number}"));
            match std::fs::create_dir(&folder) {
                Ok(()) => return Ok(Coming { folder, _in_use: in_use }),
                Err(error) if error.kind() == ErrorKind::AlreadyExists => {}
                Err(error) => return Err(error.into()),
            }
        }
        Err(StoreError::InTheWay(photos.to_owned()))
    }
}

impl Drop for Coming {
    fn drop(&mut self) {
        // What cannot be taken away now is cleared by the next program that is alone.
        drop(std::fs::remove_dir_all(&self.folder));
    }
}

/// Clears what never came in whole.
fn clear(photos: &Path) -> Result<(), StoreError> {
    for entry in std::fs::read_dir(photos)? {
        let entry = entry?;
        if entry.file_name().to_string_lossy().starts_with(PART) {
            let path = entry.path();
            if path.is_dir() { std::fs::remove_dir_all(path)? } else { std::fs::remove_file(path)? }
        }
    }
    Ok(())
}

impl Photos {
    /// Opens a folder of photos, making it where there is none, and clears what never came in whole, unless another
    /// program takes photos in there at the same time.
    ///
    /// # Errors
    /// When the folder cannot be made or read.
    pub fn open(folder: &Path) -> Result<Self, StoreError> {
        std::fs::create_dir_all(folder)?;
        let coming = Some(Arc::new(Coming::begin(folder)?));
        Ok(Photos { folder: folder.to_owned(), coming })
    }

    /// A folder of photos as it is, for reading from it while another program takes photos in.
    pub fn at(folder: &Path) -> Self {
        Photos { folder: folder.to_owned(), coming: None }
    }

    /// Where a photo lies, or would.
    pub fn path(&self, hash: &FileHash) -> PathBuf {
        let name = hash.to_string();
        self.folder.join(&name[..2]).join(name)
    }

    /// Where to write a photo on its way in, of photos that were opened; the number is the caller's, one for each at a time.
    pub fn part(&self, number: u64) -> PathBuf {
        let folder = self.coming.as_ref().map_or(&self.folder, |coming| &coming.folder);
        folder.join(number.to_string())
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
