//! The lecturer's own words: Markdown (CommonMark) into the tree.
//!
//! Only what reads well in a handout is taken: paragraphs, lists, stress, headings, code, quotations and links
//! to `http`, `https` and `mailto`. Raw HTML and pictures are shown as the text they are written with, so nothing
//! can be loaded or run.

use crate::tree::{Block, Inline};
use pulldown_cmark::{CodeBlockKind, Event, HeadingLevel, Options, Parser, Tag, TagEnd};

/// Headings of the lecturer's text stand this far below those of the document that it is put into.
const DEMOTION: u8 = 2;

/// Lists and quotations within one another deeper than this are flattened: no reader follows them, and a file
/// made to exhaust the stack must not.
const DEEPEST: usize = 6;

/// Stress and links within one another deeper than this are dropped, and their words kept.
const DEEPEST_STRESS: usize = 4;

/// Reads the lecturer's words into blocks. Every text is accepted.
pub fn blocks(text: &str) -> Vec<Block> {
    let mut reader = Reader { frames: vec![Frame::new(Kind::Root)], depth: 0, stress: 0, skipped: 0 };
    for event in Parser::new_ext(text, Options::ENABLE_SMART_PUNCTUATION) {
        reader.take(event);
    }
    reader.finish()
}

/// Reads one line of the lecturer's words: a title or a caption. Blocks are run together.
pub fn line(text: &str) -> Vec<Inline> {
    let mut out = Vec::new();
    for block in blocks(text) {
        flatten(block, &mut out);
    }
    out
}

fn flatten(block: Block, out: &mut Vec<Inline>) {
    let gap = |out: &mut Vec<Inline>| {
        if !out.is_empty() {
            out.push(" ".into());
        }
    };
    match block {
        Block::Heading { text, .. } | Block::Paragraph(text) => {
            gap(out);
            out.extend(text);
        }
        Block::List { items, .. } => items.into_iter().flatten().for_each(|block| flatten(block, out)),
        Block::Quote(inner) => inner.into_iter().for_each(|block| flatten(block, out)),
        // The reader makes no other kinds.
        _ => {}
    }
}

enum Kind {
    Root,
    Paragraph,
    Heading(u8),
    Strong,
    Emphasis,
    /// An address that may be followed, or `None` for one that may not.
    Link(Option<String>),
    Quote,
    List(bool),
    Item,
    Code,
}

/// An open element: what has been gathered in it.
struct Frame {
    kind: Kind,
    inlines: Vec<Inline>,
    blocks: Vec<Block>,
    items: Vec<Vec<Block>>,
}

impl Frame {
    fn new(kind: Kind) -> Self {
        Self { kind, inlines: Vec::new(), blocks: Vec::new(), items: Vec::new() }
    }

    /// Loose words of a tight list item become a paragraph of it.
    fn settle(&mut self) {
        if !self.inlines.is_empty() {
            let inlines = std::mem::take(&mut self.inlines);
            self.blocks.push(Block::Paragraph(inlines));
        }
    }
}

struct Reader {
    frames: Vec<Frame>,
    /// Open lists and quotations.
    depth: usize,
    /// Open stress and links.
    stress: usize,
    /// Containers left out for being too deep, still to be closed.
    skipped: usize,
}

impl Reader {
    fn top(&mut self) -> &mut Frame {
        self.frames.last_mut().expect("the root frame is never closed")
    }

    fn inline(&mut self, inline: Inline) {
        let top = self.top();
        if let (Inline::Text(new), Some(Inline::Text(old))) = (&inline, top.inlines.last_mut()) {
            old.push_str(new);
        } else {
            top.inlines.push(inline);
        }
    }

    fn block(&mut self, block: Block) {
        let top = self.top();
        top.settle();
        top.blocks.push(block);
    }

    fn open(&mut self, kind: Kind) {
        self.frames.push(Frame::new(kind));
    }

    fn close(&mut self) {
        if self.frames.len() < 2 {
            return;
        }
        let Some(mut frame) = self.frames.pop() else { return };
        match frame.kind {
            Kind::Root => {}
            Kind::Paragraph => {
                if !frame.inlines.is_empty() {
                    self.block(Block::Paragraph(frame.inlines));
                }
            }
            Kind::Heading(level) => self.block(Block::Heading { level, text: frame.inlines }),
            Kind::Strong => self.inline(Inline::Strong(frame.inlines)),
            Kind::Emphasis => self.inline(Inline::Emphasis(frame.inlines)),
            Kind::Link(Some(to)) => self.inline(Inline::Link { to, text: frame.inlines }),
            Kind::Link(None) => frame.inlines.into_iter().for_each(|inline| self.inline(inline)),
            Kind::Quote => {
                frame.settle();
                self.block(Block::Quote(frame.blocks));
            }
            Kind::List(ordered) => {
                if !frame.items.is_empty() {
                    self.block(Block::List { ordered, items: frame.items });
                }
            }
            Kind::Item => {
                frame.settle();
                let blocks = frame.blocks;
                self.top().items.push(blocks);
            }
            Kind::Code => {
                self.block(Block::Paragraph(frame.inlines));
            }
        }
    }

    fn stressed(&mut self, kind: Kind) {
        self.stress += 1;
        self.open(if self.stress > DEEPEST_STRESS { Kind::Link(None) } else { kind });
    }

    fn container(&mut self, kind: Kind) {
        if self.depth >= DEEPEST {
            self.skipped += 1;
        } else {
            self.depth += 1;
            self.open(kind);
        }
    }

    fn leave_container(&mut self) {
        if self.skipped > 0 {
            self.skipped -= 1;
            self.top().settle();
        } else {
            self.depth -= 1;
            self.close();
        }
    }

    fn take(&mut self, event: Event<'_>) {
        match event {
            Event::Start(tag) => self.start(tag),
            Event::End(tag) => self.end(tag),
            Event::Text(text) => {
                if matches!(self.top().kind, Kind::Code) {
                    let lines: Vec<&str> = text.lines().collect();
                    for line in lines {
                        if !self.top().inlines.is_empty() {
                            self.top().inlines.push(Inline::LineBreak);
                        }
                        self.top().inlines.push(Inline::Code(line.to_owned()));
                    }
                } else {
                    self.inline(Inline::Text(text.into_string()));
                }
            }
            // Raw HTML is shown as it is written, never handed on.
            Event::Html(text) | Event::InlineHtml(text) => {
                self.inline(Inline::Text(text.replace('\n', " ")));
            }
            Event::Code(text) | Event::InlineMath(text) | Event::DisplayMath(text) => {
                self.inline(Inline::Code(text.into_string()));
            }
            Event::SoftBreak => self.inline(" ".into()),
            Event::HardBreak => self.inline(Inline::LineBreak),
            Event::Rule | Event::FootnoteReference(_) | Event::TaskListMarker(_) => {}
        }
    }

    fn start(&mut self, tag: Tag<'_>) {
        match tag {
            Tag::Paragraph | Tag::HtmlBlock => self.open(Kind::Paragraph),
            Tag::Heading { level, .. } => self.open(Kind::Heading(demoted(level))),
            Tag::BlockQuote(_) => self.container(Kind::Quote),
            Tag::List(first) => self.container(Kind::List(first.is_some())),
            Tag::Item => {
                if self.skipped == 0 {
                    self.open(Kind::Item);
                }
            }
            Tag::CodeBlock(CodeBlockKind::Indented | CodeBlockKind::Fenced(_)) => self.open(Kind::Code),
            Tag::Strong => self.stressed(Kind::Strong),
            Tag::Emphasis => self.stressed(Kind::Emphasis),
            Tag::Link { dest_url, .. } => self.stressed(Kind::Link(followable(&dest_url))),
            // A picture would have to be loaded: its alternative text stands for it. All others are switched off.
            _ => self.open(Kind::Link(None)),
        }
    }

    fn end(&mut self, tag: TagEnd) {
        match tag {
            TagEnd::BlockQuote(_) | TagEnd::List(_) => self.leave_container(),
            TagEnd::Item => {
                if self.skipped == 0 {
                    self.close();
                } else {
                    self.top().settle();
                }
            }
            TagEnd::Strong | TagEnd::Emphasis | TagEnd::Link => {
                self.stress = self.stress.saturating_sub(1);
                self.close();
            }
            _ => self.close(),
        }
    }

    fn finish(mut self) -> Vec<Block> {
        while self.frames.len() > 1 {
            self.close();
        }
        let mut root = self.frames.pop().expect("the root frame is never closed");
        root.settle();
        root.blocks
    }
}

fn demoted(level: HeadingLevel) -> u8 {
    (level as u8).saturating_add(DEMOTION).min(3)
}

/// The address where it may be followed: a web page or a mail address, and no control characters in it.
pub fn followable(address: &str) -> Option<String> {
    let address = address.trim();
    let lower = address.to_ascii_lowercase();
    let known = ["http://", "https://", "mailto:"].iter().any(|scheme| lower.starts_with(scheme));
    (known && !address.chars().any(|c| c.is_control() || c.is_whitespace())).then(|| address.to_owned())
}
