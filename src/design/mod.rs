//! What a person enters: plain data, ranges, presets, link and file formats.
