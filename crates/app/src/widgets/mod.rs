//! Pieces of screens that know no record: keypad, form fields, dialogs, big figures.
