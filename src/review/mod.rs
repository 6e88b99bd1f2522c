//! Puts a design through every question, in order, and gives verdicts with remedies.
