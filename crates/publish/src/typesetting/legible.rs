//! Text that can be printed: every character has a picture, and every line can be broken.
