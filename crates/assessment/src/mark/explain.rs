//! Why a wrong answer is what it is.
//!
//! A mistake's value is exact, and a student's answer is known to its written figures: an explanation must lead to these figures,
//! whether the student rounded on the way or not. A looser fit would find an explanation for any number: with sixty mistakes
//! on the way to a stress and bands of 1 % one nonsense number in twenty would be "known".
//!
//! What is rare, two mistakes together, or a mistake and a slip, there are thousands of. It is claimed only where the written
//! figures could hardly fit one of them by chance ([`CHANCE`]); else it is offered as a guess.

use super::asked::Asked;
use super::between::{Between, Pair};
use super::desk::{Behind, Desk, Ground, Led, Pin};
use super::verdict::{Cause, Explanation, Made, Slipped, Verdict};
use workings::evaluate::EvaluationError;
use workings::mistake::slip::Slip;
use workings::working::Id;

/// Rare explanations of one sort are claimed only where a number taken at random near the answer, and with its figures, would
/// find one of them in fewer cases than this.
pub(super) const CHANCE: f64 = 2e-3;

/// Numbers of no meaning are taken to lie within this factor of the right value as a rule, ...
const FAR: f64 = 100.0;

/// ... and this seldom beyond it, where a lost power of ten or a unit leads.
const FAR_AWAY: f64 = 0.1;

/// A number is known to be another with its sign or a power of ten lost only by its digits: half a unit of the last is to be no more
/// than this part of it, which asks for two of them.
const FEWEST_DIGITS: f64 = 0.05;

/// The most guesses that are offered.
const GUESSES: usize = 3;

/// A wrong answer to be explained.
pub(super) struct Wrong<'s> {
    pub(super) asked: &'s Asked,
    pub(super) id: Id,
    /// SI.
    pub(super) answer: f64,
    /// How exactly it is known, SI.
    pub(super) half_place: f64,
    /// Whether it has fewer figures than the course asks for.
    pub(super) coarse: bool,
    pub(super) pins: &'s [Pin],
    /// The labels of the own values that are wrong.
    pub(super) from: &'s [String],
}

impl Wrong<'_> {
    fn fits(&self, led: &Led) -> bool {
        let off = (self.answer - led.value).abs();
        let half = self.half_place * (1.0 + 1e-9) + 1e-12 * led.value.abs();
        let within = self.answer >= led.lower - half && self.answer <= led.upper + half;
        within && off <= self.asked.most_off(led.value)
    }

    /// Whether it is zero, which has no sign and no digits: it is never known for a slip, nor for two things that went wrong.
    fn is_nothing(&self) -> bool {
        self.answer == 0.0
    }

    /// As [`Wrong::fits`], for a value after a slip: digits that were kept can only be known where there are some.
    fn fits_slipped(&self, led: &Led) -> bool {
        if self.is_nothing() {
            return false;
        }
        let in_proportion = (self.answer - led.value).abs() <= self.asked.share_off() * led.value.abs();
        in_proportion && self.half_place <= FEWEST_DIGITS * self.answer.abs() && self.fits(led)
    }

    /// Whether it is the value with this slip, which befell what lies at `base`. Where the slip leads far away there is hardly anything
    /// else to find, and all that would be right is taken for it; nearer by the digits count.
    fn is_slip(&self, slip: &Slip, base: &Led) -> bool {
        if self.is_nothing() {
            return false;
        }
        let before = self.answer / slip.factor;
        let factor = slip.factor.abs();
        let far = factor >= FAR || factor <= 1.0 / FAR;
        let with_digits = self.half_place <= FEWEST_DIGITS * self.answer.abs();
        let would_be_right = (before - base.value).abs() <= self.asked.share() * base.value.abs();
        (far && with_digits && would_be_right) || self.fits_slipped(&base.times(slip.factor))
    }

    /// Whether it is within the course's tolerance of a value, though not by its figures.
    fn is_near(&self, led: &Led) -> bool {
        (self.answer - led.value).abs() <= self.asked.most_off(led.value)
    }

    /// Whether it may be the value at `base`, rounded too early: it, or an own value that it rests on, was written with too few figures.
    fn may_be_rounded_early(&self, base: &Led) -> bool {
        let few_figures = self.coarse || self.pins.iter().any(|pin| pin.coarse);
        let off = (self.answer - base.value).abs();
        few_figures && !self.is_nothing() && off <= self.asked.early_off(base.value) * (1.0 + 1e-9)
    }

    /// The slip where it is right but for the sign, whatever the own values: whoever walks round a section the other way has all flows so.
    fn only_its_sign(&self) -> Option<Explanation> {
        let sign = self.asked.slips.iter().find(|slip| slip.factor == -1.0)?;
        let mirrored = !self.is_nothing() && self.asked.accepts(-self.answer);
        let cause = Cause::Slip { slip: slipped_as(sign) };
        mirrored.then(|| Explanation { cause, from: Vec::new(), expected: -self.asked.right })
    }

    fn explanation(&self, cause: Cause, expected: f64) -> Explanation {
        Explanation { cause, from: self.from.to_vec(), expected }
    }

    /// The chance at least that a number of no meaning fits one of so many values, wherever these are: as a rule within two decades.
    fn chance_of_one_in(&self, values: usize) -> f64 {
        let width = 2.0 * self.half_place / self.answer.abs();
        values as f64 * width / (2.0 * std::f64::consts::LN_10)
    }

    /// The chance that a number of no meaning, of the same figures and of about the same size, fits one of so many values.
    fn chance<'l>(&self, all: impl Iterator<Item = &'l Led>) -> f64 {
        let size = self.answer.abs();
        let ratio = size / self.asked.right.abs();
        let share = if (1.0 / FAR..=FAR).contains(&ratio) { 1.0 } else { FAR_AWAY };
        // A decade about the answer.
        let reach = size / 10_f64.sqrt()..=size * 10_f64.sqrt();
        let near = |led: &&Led| led.value * self.answer > 0.0 && reach.contains(&led.value.abs());
        let width = |led: &Led| (led.upper - led.lower + 2.0 * self.half_place) / led.value.abs();
        share * all.filter(near).map(width).sum::<f64>() / std::f64::consts::LN_10
    }
}

/// The explanations of a wrong answer that no own value follows from; `charged` are the mistakes that were counted at other parts.
pub(super) struct Explained {
    pub(super) verdict: Verdict,
    /// What stands behind the value, before any slip in writing it down, where there is only one explanation.
    pub(super) behind: Behind,
    /// All single mistakes that fit.
    pub(super) mistakes: Vec<usize>,
}

/// Explains a wrong answer; `against` are the mistakes that speak against the student's own earlier answers.
///
/// # Errors
/// A mistake of ours: a formula that cannot be evaluated.
pub(super) fn explain(
    wrong: &Wrong<'_>,
    desk: &mut Desk<'_>,
    between: &mut Between,
    ground: &Ground,
    against: Option<&Between>,
) -> Result<Explained, EvaluationError> {
    let base = ground.led(wrong.id);
    let led = match wrong.pins.is_empty() {
        true => between.from_right.clone(),
        false => between.led(desk, ground),
    };
    let known = Known { desk, between };
    let fitting: Vec<usize> = (0..led.len())
        .filter(|&way| led.get(way).copied().flatten().is_some_and(|led| wrong.fits(&led)))
        .collect();
    let plain = known.likely(wrong, base, &led, &fitting);
    if !plain.causes.is_empty() {
        return Ok(Explained {
            behind: plain.behind(),
            mistakes: plain.mistakes,
            verdict: claimed(plain.causes),
        });
    }
    // Who rounds one step and not another ends near the value of a mistake, and not at its figures.
    let near = led.iter().enumerate().filter_map(|(way, led)| {
        let led = led.filter(|led| wrong.is_near(led))?;
        Some(wrong.explanation(Cause::Mistake { mistake: known.made(way)? }, led.value))
    });
    let mut guesses: Vec<Explanation> = near.collect();
    if wrong.is_nothing() {
        let verdict = unknown(wrong, guesses);
        return Ok(Explained { verdict, behind: Behind::Itself, mistakes: Vec::new() });
    }
    if let Some(against) = against {
        let known = Known { desk, between: against };
        // A mistake at the value itself, which was found without the own values: M over a support from the other end of the beam. Of
        // these there are few. Then any mistake before an own value that is wrong and does not show it: who has a value right has not made
        // the mistake that leads to another.
        for at_itself in [true, false] {
            if !at_itself && let Some(slip) = wrong.only_its_sign() {
                let verdict = Verdict::Explained(slip);
                return Ok(Explained { verdict, behind: Behind::Itself, mistakes: Vec::new() });
            }
            let all: Vec<(usize, Led)> = against
                .from_right
                .iter()
                .enumerate()
                .filter(|(way, _)| match at_itself {
                    true => known.is_made_at(*way, wrong.id),
                    false => !known.is_belied(*way, wrong.pins),
                })
                .filter_map(|(way, led)| Some((way, (*led)?)))
                .collect();
            let found = all.iter().filter(|(_, led)| wrong.fits(led)).filter_map(|(way, led)| {
                let cause = Cause::Mistake { mistake: known.made(*way)? };
                Some(Explanation { cause, from: Vec::new(), expected: led.value })
            });
            let chance = wrong.chance(all.iter().map(|(_, led)| led));
            let mut kept = Vec::new();
            if let Some(verdict) = rare(found.collect(), chance, &mut kept) {
                return Ok(Explained { verdict, behind: Behind::Itself, mistakes: Vec::new() });
            }
            if !at_itself {
                guesses.extend(kept);
            }
        }
    }
    // A mistake, and a slip after it.
    let known = Known { desk, between };
    let slips: Vec<&Slip> = wrong.asked.slips.iter().filter(|slip| !slip.last_resort).collect();
    let slipped = |way: usize| {
        let led = led.get(way).copied().flatten();
        slips.iter().filter_map(move |slip| Some((way, **slip, led?.times(slip.factor))))
    };
    let all: Vec<(usize, Slip, Led)> = (0..led.len()).flat_map(slipped).collect();
    let fitting: Vec<&(usize, Slip, Led)> = all.iter().filter(|(.., led)| wrong.fits_slipped(led)).collect();
    let found = fitting.iter().filter_map(|(way, slip, led)| {
        let cause = Cause::MistakeAndSlip { mistake: known.made(*way)?, slip: slipped_as(slip) };
        Some(wrong.explanation(cause, led.value))
    });
    let chance = wrong.chance(all.iter().map(|(.., led)| led));
    if let Some(verdict) = rare(found.collect(), chance, &mut guesses) {
        let behind = match fitting.as_slice() {
            [(way, ..)] => between.ways.get(*way).map(|way| Behind::Mistake(way.mistake)),
            _ => None,
        };
        return Ok(Explained { verdict, behind: behind.unwrap_or(Behind::Itself), mistakes: Vec::new() });
    }
    // Two mistakes.
    let own;
    let pairs: &[Pair] = if wrong.from.is_empty() {
        between.pairs_from_right(desk, wrong.pins)?
    } else if wrong.chance_of_one_in(between.count_of_pairs()) <= CHANCE {
        own = between.pairs(desk, ground)?;
        &own
    } else {
        &[]
    };
    let fitting: Vec<Pair> = pairs.iter().filter(|pair| wrong.fits(&pair.led)).copied().collect();
    let chance = wrong.chance(pairs.iter().map(|pair| &pair.led));
    let known = Known { desk, between };
    let found = fitting.iter().filter_map(|pair| {
        let [one, other] = pair.ways;
        let cause = Cause::TwoMistakes { mistakes: [known.made(one)?, known.made(other)?] };
        Some(wrong.explanation(cause, pair.led.value))
    });
    if let Some(verdict) = rare(found.collect(), chance, &mut guesses) {
        return Ok(Explained { verdict, behind: Behind::Itself, mistakes: Vec::new() });
    }
    let last = wrong.asked.slips.iter().filter(|slip| slip.last_resort);
    let last = last
        .filter_map(|slip| Some((slip, base?.times(slip.factor))))
        .find(|(_, led)| wrong.fits_slipped(led));
    let verdict = match last {
        Some((slip, led)) => {
            Verdict::Explained(wrong.explanation(Cause::Slip { slip: slipped_as(slip) }, led.value))
        }
        None => unknown(wrong, guesses),
    };
    Ok(Explained { verdict, behind: Behind::Itself, mistakes: Vec::new() })
}

/// Nothing is known, and these are guesses.
fn unknown(wrong: &Wrong<'_>, mut guesses: Vec<Explanation>) -> Verdict {
    let off = |guess: &Explanation| (guess.expected - wrong.answer).abs();
    guesses.sort_by(|one, other| off(one).total_cmp(&off(other)));
    guesses.truncate(GUESSES);
    Verdict::Unknown { perhaps: guesses }
}

/// What was found of a rare sort: claimed, or kept as a guess.
fn rare(found: Vec<Explanation>, chance: f64, guesses: &mut Vec<Explanation>) -> Option<Verdict> {
    if found.is_empty() {
        return None;
    }
    if chance > CHANCE {
        guesses.extend(found);
        return None;
    }
    Some(claimed(found))
}

fn claimed(mut causes: Vec<Explanation>) -> Verdict {
    match causes.len() {
        1 => Verdict::Explained(causes.remove(0)),
        _ => Verdict::Ambiguous { candidates: causes },
    }
}

fn slipped_as(slip: &Slip) -> Slipped {
    Slipped { slip: slip.id, factor: slip.factor }
}

/// The explanations that are not rare.
struct Likely {
    causes: Vec<Explanation>,
    /// The single mistakes among them.
    mistakes: Vec<usize>,
}

impl Likely {
    fn behind(&self) -> Behind {
        match (self.causes.as_slice(), self.mistakes.as_slice()) {
            ([_], [mistake]) => Behind::Mistake(*mistake),
            ([Explanation { cause: Cause::Slip { .. }, .. }], []) => Behind::Follows,
            _ => Behind::Itself,
        }
    }
}

struct Known<'k, 'd> {
    desk: &'k Desk<'d>,
    between: &'k Between,
}

impl Known<'_, '_> {
    fn made(&self, way: usize) -> Option<Made> {
        let mistake = self.between.ways.get(way)?.mistake;
        Some(made(self.desk, mistake)?.1)
    }

    /// Whether the mistake of a way is made at a working.
    fn is_made_at(&self, way: usize, id: Id) -> bool {
        let mistake = self.between.ways.get(way).and_then(|way| self.desk.mistakes().get(way.mistake));
        mistake.is_some_and(|applied| applied.working() == id)
    }

    /// Whether the mistake of a way changes what the student has right.
    fn is_belied(&self, way: usize, pins: &[Pin]) -> bool {
        let mistake = self.between.ways.get(way).and_then(|way| self.desk.mistakes().get(way.mistake));
        let right = || pins.iter().filter(|pin| pin.behind == Behind::Right);
        mistake.is_some_and(|applied| right().any(|pin| applied.changes(self.desk.solved(), pin.id)))
    }

    fn likely(&self, wrong: &Wrong<'_>, base: Option<Led>, led: &[Option<Led>], fitting: &[usize]) -> Likely {
        let (answer, asked) = (wrong.answer, wrong.asked);
        let mut likely = Likely { causes: Vec::new(), mistakes: Vec::new() };
        let early = base.filter(|base| wrong.may_be_rounded_early(base));
        if let Some(base) = early.filter(|_| wrong.coarse) {
            likely.causes.push(wrong.explanation(Cause::RoundedEarly, base.value));
            return likely;
        }
        let mirrored = base.filter(|_| !wrong.is_nothing()).is_some_and(|base| {
            (answer + base.value).abs() <= asked.share_off() * base.value.abs()
                || wrong.fits_slipped(&base.times(-1.0))
        });
        let own_sign = |way: usize| self.is_made_at(way, wrong.id);
        let is_sign = mirrored && !fitting.iter().copied().any(own_sign);
        if is_sign && let Some(sign) = asked.slips.iter().find(|slip| slip.factor == -1.0) {
            let base = base.map_or(asked.right, |base| base.value);
            likely.causes.push(wrong.explanation(Cause::Slip { slip: slipped_as(sign) }, -base));
        }
        let mut seen: Vec<&str> = Vec::new();
        for &way in fitting {
            let Some((index, led)) =
                self.between.ways.get(way).map(|way| way.mistake).zip(led.get(way).copied().flatten())
            else {
                continue;
            };
            // Whose sign is lost on the way to the value has the right size and the wrong sign, and more cannot be known.
            let only_sign =
                base.is_some_and(|base| (led.value + base.value).abs() <= 1e-9 * base.value.abs());
            if is_sign && only_sign {
                continue;
            }
            let Some(applied) = self.desk.mistakes().get(index) else { continue };
            likely.mistakes.push(index);
            // Of one mistake that leads to the same value from several workings the nearest counts.
            if !seen.contains(&applied.id())
                && let Some((_, mistake)) = made(self.desk, index)
            {
                seen.push(applied.id());
                likely.causes.push(wrong.explanation(Cause::Mistake { mistake }, led.value));
            }
        }
        let others = asked.slips.iter().filter(|slip| !slip.last_resort && slip.factor != -1.0);
        for slip in others {
            if let Some(base) = base.filter(|base| wrong.is_slip(slip, base)) {
                let expected = base.value * slip.factor;
                likely.causes.push(wrong.explanation(Cause::Slip { slip: slipped_as(slip) }, expected));
            }
        }
        if let Some(base) = early {
            likely.causes.push(wrong.explanation(Cause::RoundedEarly, base.value));
        }
        likely
    }
}

/// A mistake by its place in the list of all: the working at which it is made, and its names.
pub(super) fn made(desk: &Desk<'_>, mistake: usize) -> Option<(Id, Made)> {
    let applied = desk.mistakes().get(mistake)?;
    let working = applied.working();
    let made_at = desk.solved().workings().working(working).name.clone();
    Some((working, Made { mistake: applied.id().to_owned(), made_at }))
}
