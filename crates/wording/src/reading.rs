//! A text read piece by piece. Start at [`read`].
//!
//! At each place the first of these that fits is taken: words in quotation marks; an amount; the longest known
//! phrase; a slip of the pen of two words, then of one; a year. Anything else is left for full text. "Not" bars what
//! follows it, and what "or" joins to that.

use crate::gathering::gathered;
use crate::quantity;
use crate::slips;
use crate::tokens::{Is, Token, tokens};
use crate::vocabulary::{LONGEST_PHRASE, Meaning, Vocabulary, wants};
use crate::wish::{Kind, Sense, Want, Wish};
use record::season::Season;
use std::ops::Range;

/// A text as it was understood.
#[derive(Clone, Debug, PartialEq)]
pub struct Reading {
    /// What it asks for.
    pub wish: Wish,
    /// The pieces that mean something, in the text's order; they never overlap.
    pub parts: Vec<Part>,
}

/// A piece of the text and what it was read as.
#[derive(Clone, Debug, PartialEq)]
pub struct Part {
    /// The piece as it stands in the text.
    pub said: String,
    /// Where it stands, in bytes.
    pub at: Range<usize>,
    /// What it means; several where a word of the trade means either ("purple").
    pub wants: Vec<Want>,
    /// Asked for or asked away.
    pub sense: Sense,
    /// The word that a slip of the pen was mended to.
    pub mended: Option<String>,
}

/// Reads what a text asks for. Any text can be read; what means nothing here is left for full text.
///
/// # Examples
/// ```
/// use wording::vocabulary::{GuideWords, Vocabulary};
///
/// let words = GuideWords { classes: &["slicer"], colours: &["green"], ..GuideWords::default() };
/// let reading = wording::reading::read("green slicers, not striped", &Vocabulary::new(words));
/// assert_eq!(reading.wish.classes.wanted, ["slicer"]);
/// assert_eq!(reading.wish.patterns.barred, [record::colour::Pattern::Striped]);
/// ```
#[must_use]
pub fn read(text: &str, vocabulary: &Vocabulary) -> Reading {
    read_by(text, vocabulary, None)
}

/// Reads a text of which one kind of answer is expected: "slicing" is a class in a column of classes.
#[must_use]
pub fn read_as(text: &str, vocabulary: &Vocabulary, kind: Kind) -> Reading {
    read_by(text, vocabulary, Some(kind))
}

fn read_by(text: &str, vocabulary: &Vocabulary, kind: Option<Kind>) -> Reading {
    let tokens = tokens(text);
    let mut reader =
        Reader { text, tokens: &tokens, vocabulary, kind, parts: Vec::new(), barring: Barring::Off };
    let mut at = 0;
    while at < tokens.len() {
        at = reader.step(at).max(at + 1);
    }
    Reading { wish: gathered(&reader.parts), parts: reader.parts }
}

/// Whether what comes next is asked away.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Barring {
    /// It is not.
    Off,
    /// The next want is.
    Next,
    /// A want of this kind was; another is only where a joiner stands between.
    Was(Kind, Joined),
}

/// What stands between a barred want and the next one.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Joined {
    /// Nothing that joins.
    No,
    /// "and", a comma or a stroke: joins the same kind.
    Loosely,
    /// "or", "nor": joins any kind.
    Closely,
}

struct Reader<'a> {
    text: &'a str,
    tokens: &'a [Token],
    vocabulary: &'a Vocabulary,
    kind: Option<Kind>,
    parts: Vec<Part>,
    barring: Barring,
}

impl Reader<'_> {
    /// Reads what stands at a token and tells where the next piece begins.
    fn step(&mut self, at: usize) -> usize {
        match self.tokens.get(at).map(|token| &token.is) {
            Some(Is::Quoted(said)) => self.take(at..at + 1, vec![Want::Words(said.clone())], None),
            Some(Is::Sign(',' | '/' | '&')) => self.join(Joined::Loosely, at + 1),
            Some(Is::Sign(';' | '.' | '\n')) => self.stop(at + 1),
            _ => self.amount(at).or_else(|| self.phrase(at)).unwrap_or_else(|| self.left_over(at)),
        }
    }

    fn amount(&mut self, at: usize) -> Option<usize> {
        let (want, end) = quantity::amount(self.tokens, at)?;
        Some(self.take(at..end, vec![want], None))
    }

    /// The longest known phrase; a slip of two words before one known word, as "semi determinant" is not "semi".
    fn phrase(&mut self, at: usize) -> Option<usize> {
        let longest = (2..=LONGEST_PHRASE).rev().find_map(|count| self.known(at, count));
        longest.or_else(|| self.slip(at, 2)).or_else(|| self.known(at, 1)).or_else(|| self.slip(at, 1))
    }

    fn known(&mut self, at: usize, count: usize) -> Option<usize> {
        let (key, said) = self.joined(at, count)?;
        let end = at + count;
        if 1 < count && self.vocabulary.is_name(&key) {
            return Some(self.take(at..end, vec![Want::Words(said)], None));
        }
        let meanings = self.vocabulary.meanings(&key)?;
        let wants = wants(&meanings, self.kind);
        match meanings.first()? {
            _ if !wants.is_empty() => Some(self.take(at..end, wants, None)),
            Meaning::Negator => Some(self.bar(end)),
            Meaning::Joiner if key == "and" => Some(self.join(Joined::Loosely, end)),
            Meaning::Joiner => Some(self.join(Joined::Closely, end)),
            Meaning::Filler => Some(end),
            // A word of another kind than is expected is a word like any other.
            Meaning::Plain | Meaning::Want(_) => Some(self.take(at..end, vec![Want::Words(said)], None)),
        }
    }

    fn slip(&mut self, at: usize, count: usize) -> Option<usize> {
        let (key, _) = self.joined(at, count)?;
        let alone = self.tokens.get(at..at + count)?.iter().filter_map(Token::word);
        let is_known = |word: &str| self.vocabulary.meanings(word).is_some() || self.vocabulary.is_name(word);
        if alone.clone().all(is_known) || self.vocabulary.is_name(&key) {
            return None;
        }
        let mended = slips::mended(&key, count, self.vocabulary)?.to_owned();
        let wants = wants(&self.vocabulary.meanings(&mended)?, self.kind);
        (!wants.is_empty()).then(|| self.take(at..at + count, wants, Some(mended)))
    }

    /// The folded words of a run of tokens, and the run as it stands, if it is all words.
    fn joined(&self, at: usize, count: usize) -> Option<(String, String)> {
        let run = self.tokens.get(at..at + count)?;
        let words: Option<Vec<&str>> = run.iter().map(Token::word).collect();
        let said = self.text.get(run.first()?.at.start..run.last()?.at.end)?;
        Some((words?.concat(), said.to_lowercase()))
    }

    /// A year that there may be evidence of, or a word for full text.
    fn left_over(&mut self, at: usize) -> usize {
        let Some(token) = self.tokens.get(at) else { return at + 1 };
        let said = self.text.get(token.at.clone()).unwrap_or_default().to_lowercase();
        match token.is {
            Is::Number(number) => {
                let want = year(number, &said).map_or(Want::Words(said), Want::Season);
                self.take(at..at + 1, vec![want], None)
            }
            Is::Word(_) => self.take(at..at + 1, vec![Want::Words(said)], None),
            _ => at + 1,
        }
    }

    fn take(&mut self, run: Range<usize>, wants: Vec<Want>, mended: Option<String>) -> usize {
        let Some(kind) = wants.first().map(Want::kind) else { return run.end };
        let sense = match self.barring {
            Barring::Next | Barring::Was(_, Joined::Closely) => Sense::Barred,
            Barring::Was(before, Joined::Loosely) if before == kind => Sense::Barred,
            _ => Sense::Wanted,
        };
        self.barring = match sense {
            Sense::Barred => Barring::Was(kind, Joined::No),
            Sense::Wanted => Barring::Off,
        };
        let ends = |run: &Range<usize>| {
            Some(self.tokens.get(run.start)?.at.start..self.tokens.get(run.end - 1)?.at.end)
        };
        let place = ends(&run).unwrap_or_default();
        let said = self.text.get(place.clone()).unwrap_or_default().to_owned();
        self.parts.push(Part { said, at: place, wants, sense, mended });
        run.end
    }

    fn bar(&mut self, end: usize) -> usize {
        self.barring = Barring::Next;
        end
    }

    fn join(&mut self, how: Joined, end: usize) -> usize {
        self.barring = match self.barring {
            Barring::Was(kind, Joined::Closely) => Barring::Was(kind, Joined::Closely),
            Barring::Was(kind, _) => Barring::Was(kind, how),
            Barring::Next | Barring::Off => Barring::Off,
        };
        end
    }

    fn stop(&mut self, end: usize) -> usize {
        self.barring = Barring::Off;
        end
    }
}

/// A four-figure year.
fn year(number: f64, said: &str) -> Option<Season> {
    let year: i16 = said.parse().ok()?;
    Season::new(year).filter(|_| f64::from(year) == number)
}
