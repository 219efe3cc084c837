//! `draw`: figures as SVG files.

use crate::args::Command;
use crate::file::{file_name, write};
use crate::folder::{Folder, shaft_of};
use crate::problem::Problem;
use crate::screen::Screen;
use crate::view::View;
use figure::Size;

/// Points: the drawings of a package on Letter, without its margins.
const SIZE: Size = Size { width: 520.0, height: 640.0 };

pub(crate) fn run(command: &Command, screen: &mut Screen) -> Result<(), Problem> {
    let Command::Draw { shaft, figure, out, at, job } = command else { return Ok(()) };
    let record = Folder::open(&job.job)?.record()?;
    let shaft = shaft_of(&record, shaft)?;
    let view = View::of(&record, &shaft, at.at.as_deref())?;
    let wanted = chosen(figure.as_deref())?;
    let look = drawing::View {
        shaft: &shaft,
        log: &view.log,
        assessment: &view.assessment,
        earlier: view.earlier(),
    };
    for drawing in wanted {
        if !(drawing.has_content)(&look) {
            if figure.is_some() {
                let what = format!("There is nothing to draw for `{}` of {shaft} yet.", drawing.word);
                return Err(Problem::new(
                    what,
                    "No picture was made of it.",
                    "Enter what it shows first; shaftbook draw without a figure draws what there is.",
                ));
            }
            continue;
        }
        let path = out.join(format!("{}-{}.svg", file_name(&shaft), drawing.word));
        write(&path, (drawing.draw)(&look, SIZE).as_bytes())?;
        screen.line(&format!("{}: {}", drawing.title, path.display()));
    }
    Ok(())
}

fn chosen(word: Option<&str>) -> Result<Vec<&'static drawing::Drawing>, Problem> {
    let Some(word) = word else { return Ok(drawing::ALL.iter().collect()) };
    let words: Vec<&str> = drawing::ALL.iter().map(|drawing| drawing.word).collect();
    let next = format!("Figures: {}.", words.join(", "));
    let found = drawing::named(word)
        .ok_or_else(|| Problem::new(format!("There is no figure `{word}`."), "Nothing was drawn.", next))?;
    Ok(vec![found])
}
