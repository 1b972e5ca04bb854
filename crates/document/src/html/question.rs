//! What a paper has besides: questions with their marks, and where their answers are written. On a screen they can be filled in.

use super::Printer;
use super::escape::push_escaped;
use crate::tree::{Answer, Choices, Fact, Question, Room};
use std::fmt::Write;

/// Height of a line that is written by hand, mm; usual ruled paper has 7 mm to 8 mm.
const LINE: f64 = 7.5;

impl Printer<'_> {
    pub(super) fn facts(&mut self, facts: &[Fact]) {
        self.push("<dl class=\"facts\">\n");
        for fact in facts {
            self.push("<div><dt>");
            push_escaped(&mut self.out, &fact.word);
            self.push("</dt><dd>");
            if fact.stands_for.is_empty() {
                self.push("<input type=\"text\" autocomplete=\"off\" aria-label=\"");
                push_escaped(&mut self.out, &fact.word);
                self.push("\"/>");
            } else {
                self.line(&fact.stands_for);
            }
            self.push("</dd></div>\n");
        }
        self.push("</dl>\n");
    }

    pub(super) fn question(&mut self, question: &Question) {
        let (class, level) = if question.is_part { ("part", 2) } else { ("question", 1) };
        let element = self.levels.next(level) + 1;
        let _ = write!(self.out, "<section class=\"{class}\">\n<h{element}>");
        self.push("<span>");
        self.line(&question.label);
        self.push("</span>");
        if !question.marks.is_empty() {
            self.push(" <span class=\"marks\">");
            push_escaped(&mut self.out, &question.marks);
            self.push("</span>");
        }
        let _ = writeln!(self.out, "</h{element}>");
        self.blocks(&question.body);
        self.push("</section>\n");
    }

    pub(super) fn answer(&mut self, answer: &Answer) {
        self.push("<p class=\"answer\"><span>");
        self.line(&answer.before);
        self.push("</span> <input type=\"text\" autocomplete=\"off\" aria-label=\"");
        push_escaped(&mut self.out, &answer.spoken);
        self.push("\"/> <span>");
        self.line(&answer.behind);
        self.push("</span></p>\n");
    }

    pub(super) fn choices(&mut self, choices: &Choices) {
        self.choices += 1;
        self.push("<div class=\"choices\" role=\"radiogroup\" aria-label=\"");
        push_escaped(&mut self.out, &choices.spoken);
        self.push("\">\n");
        for item in &choices.items {
            let _ = write!(
                self.out,
                "<p><label><input type=\"radio\" name=\"choice-{}{}\"/> ",
                self.scope, self.choices
            );
            self.line(item);
            self.push("</label></p>\n");
        }
        self.push("</div>\n");
    }

    pub(super) fn room(&mut self, room: &Room) {
        let rows = (room.height / LINE).round().clamp(1.0, 60.0);
        let _ = write!(self.out, "<textarea class=\"room\" rows=\"{rows}\" aria-label=\"");
        push_escaped(&mut self.out, &room.spoken);
        self.push("\"></textarea>\n");
    }
}
