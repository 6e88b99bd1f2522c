//! What every DXF drawing holds besides its lines: head, tables, blocks, root dictionary.

use super::Drawing;
use crate::paper::number::decimal;
use crate::sizing::pattern::Bounds;

/// Handle of the block record that holds all lines.
pub(super) const MODEL_SPACE: &str = "1F";
const PAPER_SPACE: &str = "1E";
/// First handle that the frame does not use.
pub(super) const FIRST_FREE: u32 = 0x100;

/// Layers with their colour number: 7 is black or white, 8 grey, 5 blue.
const LAYERS: [(&str, &str, u8); 4] = [
    ("10", "0", 7),
    ("11", "CUT", 7),
    ("12", "MARK", 8),
    ("13", "TEXT", 5),
];

pub(super) fn head(drawing: &mut Drawing, bounds: &Bounds) {
    let seed = format!("{:X}", drawing.handle);
    drawing.pair(0, "SECTION");
    drawing.pair(2, "HEADER");
    drawing.pair(9, "$ACADVER");
    drawing.pair(1, "AC1015");
    drawing.pair(9, "$DWGCODEPAGE");
    drawing.pair(3, "ANSI_1252");
    for (name, x, y) in [
        ("$EXTMIN", bounds.left, bounds.low),
        ("$EXTMAX", bounds.right, bounds.high),
    ] {
        drawing.pair(9, name);
        drawing.pair(10, decimal(x));
        drawing.pair(20, decimal(y));
        drawing.pair(30, "0");
    }
    // Millimetres, and the metric set of line types.
    drawing.pair(9, "$INSUNITS");
    drawing.pair(70, 4);
    drawing.pair(9, "$MEASUREMENT");
    drawing.pair(70, 1);
    drawing.pair(9, "$HANDSEED");
    drawing.pair(5, seed);
    drawing.pair(0, "ENDSEC");
    drawing.pair(0, "SECTION");
    drawing.pair(2, "CLASSES");
    drawing.pair(0, "ENDSEC");
}

fn table(drawing: &mut Drawing, name: &str, handle: &str, entries: usize) {
    drawing.pair(0, "TABLE");
    drawing.pair(2, name);
    drawing.pair(5, handle);
    drawing.pair(330, 0);
    drawing.pair(100, "AcDbSymbolTable");
    drawing.pair(70, entries);
}

fn entry(drawing: &mut Drawing, kind: &str, handle: &str, owner: &str, class: &str, name: &str) {
    drawing.pair(0, kind);
    drawing.pair(5, handle);
    drawing.pair(330, owner);
    drawing.pair(100, "AcDbSymbolTableRecord");
    drawing.pair(100, class);
    drawing.pair(2, name);
}

pub(super) fn tables(drawing: &mut Drawing) {
    drawing.pair(0, "SECTION");
    drawing.pair(2, "TABLES");
    table(drawing, "VPORT", "8", 0);
    drawing.pair(0, "ENDTAB");
    table(drawing, "LTYPE", "5", 3);
    for (handle, name, words) in [
        ("14", "ByBlock", ""),
        ("15", "ByLayer", ""),
        ("16", "Continuous", "Solid line"),
    ] {
        entry(
            drawing,
            "LTYPE",
            handle,
            "5",
            "AcDbLinetypeTableRecord",
            name,
        );
        drawing.pair(70, 0);
        drawing.pair(3, words);
        drawing.pair(72, 65);
        drawing.pair(73, 0);
        drawing.pair(40, "0.0");
    }
    drawing.pair(0, "ENDTAB");
    table(drawing, "LAYER", "2", LAYERS.len());
    for (handle, name, colour) in LAYERS {
        entry(drawing, "LAYER", handle, "2", "AcDbLayerTableRecord", name);
        drawing.pair(70, 0);
        drawing.pair(62, colour);
        drawing.pair(6, "Continuous");
    }
    drawing.pair(0, "ENDTAB");
    table(drawing, "STYLE", "3", 1);
    entry(
        drawing,
        "STYLE",
        "17",
        "3",
        "AcDbTextStyleTableRecord",
        "Standard",
    );
    drawing.pair(70, 0);
    drawing.pair(40, "0.0");
    drawing.pair(41, "1.0");
    drawing.pair(50, "0.0");
    drawing.pair(71, 0);
    drawing.pair(42, "2.5");
    drawing.pair(3, "txt");
    drawing.pair(4, "");
    drawing.pair(0, "ENDTAB");
    for (name, handle) in [("VIEW", "6"), ("UCS", "7")] {
        table(drawing, name, handle, 0);
        drawing.pair(0, "ENDTAB");
    }
    table(drawing, "APPID", "9", 1);
    entry(drawing, "APPID", "18", "9", "AcDbRegAppTableRecord", "ACAD");
    drawing.pair(70, 0);
    drawing.pair(0, "ENDTAB");
    table(drawing, "DIMSTYLE", "A", 0);
    drawing.pair(100, "AcDbDimStyleTable");
    drawing.pair(0, "ENDTAB");
    table(drawing, "BLOCK_RECORD", "1", 2);
    for (handle, name) in [(MODEL_SPACE, "*Model_Space"), (PAPER_SPACE, "*Paper_Space")] {
        entry(
            drawing,
            "BLOCK_RECORD",
            handle,
            "1",
            "AcDbBlockTableRecord",
            name,
        );
        drawing.pair(340, 0);
    }
    drawing.pair(0, "ENDTAB");
    drawing.pair(0, "ENDSEC");
}

pub(super) fn blocks(drawing: &mut Drawing) {
    drawing.pair(0, "SECTION");
    drawing.pair(2, "BLOCKS");
    for (owner, name, begin, end) in [
        (MODEL_SPACE, "*Model_Space", "20", "21"),
        (PAPER_SPACE, "*Paper_Space", "22", "23"),
    ] {
        drawing.pair(0, "BLOCK");
        drawing.pair(5, begin);
        drawing.pair(330, owner);
        drawing.pair(100, "AcDbEntity");
        drawing.pair(8, "0");
        drawing.pair(100, "AcDbBlockBegin");
        drawing.pair(2, name);
        drawing.pair(70, 0);
        for code in [10, 20, 30] {
            drawing.pair(code, "0");
        }
        drawing.pair(3, name);
        drawing.pair(1, "");
        drawing.pair(0, "ENDBLK");
        drawing.pair(5, end);
        drawing.pair(330, owner);
        drawing.pair(100, "AcDbEntity");
        drawing.pair(8, "0");
        drawing.pair(100, "AcDbBlockEnd");
    }
    drawing.pair(0, "ENDSEC");
}

pub(super) fn objects(drawing: &mut Drawing) {
    drawing.pair(0, "SECTION");
    drawing.pair(2, "OBJECTS");
    drawing.pair(0, "DICTIONARY");
    drawing.pair(5, "C");
    drawing.pair(330, 0);
    drawing.pair(100, "AcDbDictionary");
    drawing.pair(281, 1);
    drawing.pair(3, "ACAD_GROUP");
    drawing.pair(350, "D");
    drawing.pair(0, "DICTIONARY");
    drawing.pair(5, "D");
    drawing.pair(330, "C");
    drawing.pair(100, "AcDbDictionary");
    drawing.pair(281, 1);
    drawing.pair(0, "ENDSEC");
}
