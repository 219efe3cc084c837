//! Calls a person's attention: words on the screen, a sound and a shake if they are allowed.
//!
//! Words: *call* = what is said; a new one calls anew, the same one calls once.

use leptos::prelude::*;
use std::cell::RefCell;
use web_sys::{AudioContext, OscillatorType};

/// What is allowed beside the words on the screen.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(crate) struct Allowed {
    /// A sound.
    pub(crate) sound: bool,
    /// A shake.
    pub(crate) vibrate: bool,
}

/// What calls.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Call {
    /// In a few words.
    pub(crate) what: String,
    /// What was found: the value first, then its limit.
    pub(crate) found: String,
    /// What to do now.
    pub(crate) next: String,
}

/// Shows a call and makes it heard and felt when it changes; nothing while it is `None`.
#[component]
pub(crate) fn Attention(
    /// What is said.
    #[prop(into)]
    call: Signal<Option<Call>>,
    /// Whether sound and shaking are wanted.
    #[prop(into)]
    allowed: Signal<Allowed>,
) -> impl IntoView {
    Effect::new(move |before: Option<Option<Call>>| {
        let call = call.get();
        if call.is_some() && before.as_ref() != Some(&call) {
            sound_and_shake(allowed.get_untracked());
        }
        call
    });
    let shown = move || {
        call.get().map(|Call { what, found, next }| {
            let next = (!next.is_empty()).then(|| view! { <p class="attention-next">{next}</p> });
            view! {
                <p class="attention-what">{what}</p>
                {next}
                <p class="attention-found">{found}</p>
            }
        })
    };
    view! {
        <div class="attention" role="alert" class:attention-quiet=move || call.get().is_none()>
            {shown}
        </div>
    }
}

fn sound_and_shake(allowed: Allowed) {
    if allowed.vibrate {
        let _ = window().navigator().vibrate_with_duration(400);
    }
    if allowed.sound {
        // A browser that has not been touched yet refuses sound; the words are on the screen all the same.
        let _ = two_tones();
    }
}

thread_local! {
    /// Opened with the first sound: a browser gives only a few.
    static CONTEXT: RefCell<Option<AudioContext>> = const { RefCell::new(None) };
}

fn context() -> Result<AudioContext, wasm_bindgen::JsValue> {
    if let Some(context) = CONTEXT.with_borrow(Option::clone) {
        return Ok(context);
    }
    let context = AudioContext::new()?;
    CONTEXT.set(Some(context.clone()));
    Ok(context)
}

fn two_tones() -> Result<(), wasm_bindgen::JsValue> {
    let context = context()?;
    // One that was opened before a hand touched the page stands still until it is told to go on.
    let _going = context.resume()?;
    let start = context.current_time();
    for (after, pitch) in [(0.0, 660.0), (0.28, 880.0)] {
        let tone = context.create_oscillator()?;
        let loudness = context.create_gain()?;
        tone.set_type(OscillatorType::Triangle);
        tone.frequency().set_value(pitch);
        loudness.gain().set_value(0.35);
        tone.connect_with_audio_node(&loudness)?;
        loudness.connect_with_audio_node(&context.destination())?;
        tone.start_with_when(start + after)?;
        tone.stop_with_when(start + after + 0.22)?;
    }
    Ok(())
}
