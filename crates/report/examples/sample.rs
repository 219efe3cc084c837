//! Writes sample documents of an invented job: `cargo run -p report --example sample -- <folder>`.

use std::path::Path;

use report::{Paper, job_summary, package};

/// The invented shafts that the drawings are looked at with.
#[path = "../../figure/tests/shafts/mod.rs"]
mod shafts;

mod drawn;
mod invented;

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let folder = std::env::args().nth(1).ok_or("name the folder the samples go to")?;
    std::fs::create_dir_all(&folder)?;
    let fonts = invented::fonts();
    for (paper, name) in [(Paper::Letter, "letter"), (Paper::A4, "a4")] {
        let shaft = package(&drawn::package(paper), &fonts)?;
        let job = job_summary(&invented::summary::summary(paper), &fonts)?;
        for (pdf, kind) in [(shaft, "package"), (job, "summary")] {
            let file = Path::new(&folder).join(format!("{kind}-{name}.pdf"));
            std::fs::write(&file, &pdf.bytes)?;
            println!("{}: {} pages, {} bytes", file.display(), pdf.pages, pdf.bytes.len());
        }
    }
    Ok(())
}
