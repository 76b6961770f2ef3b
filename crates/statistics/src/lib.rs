//! front page
