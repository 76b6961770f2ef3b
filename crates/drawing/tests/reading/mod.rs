//! Reads drawings back with the library that sets SVG in our PDFs, so that sizes are measured by
//! somebody else than us.

use drawing::svg::Svg;
use usvg::{Group, Node, Rect, Tree};

/// The drawing as its readers see it.
pub(crate) fn tree(svg: &Svg) -> Tree {
    Tree::from_str(svg.markup(), &usvg::Options::default()).unwrap()
}

/// The bounds of every path in a group, in drawing order.
pub(crate) fn path_bounds(group: &Group) -> Vec<Rect> {
    let mut bounds = Vec::new();
    for node in group.children() {
        match node {
            Node::Path(path) => bounds.push(path.abs_bounding_box()),
            Node::Group(inner) => bounds.extend(path_bounds(inner)),
            _ => {}
        }
    }
    bounds
}
