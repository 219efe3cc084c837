//! What a person is asked for: keys, keypad, forms, corrections.
