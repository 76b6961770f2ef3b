//! What would settle a contested fruit-class call.
