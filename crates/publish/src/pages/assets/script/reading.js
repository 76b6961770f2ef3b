// A text read piece by piece, and the pieces gathered to one wish: crate `wording`, files `vocabulary`, `slips`,
// `reading` and `gathering`, done again. A want is `{ kind, word }` or an amount. Needs `tokens.js`, `amounts.js`.
"use strict";
(() => {
  const { tokens, key, amount } = globalThis.locule;
  const LONGEST_PHRASE = 5;
  const MENDED_FROM = 5;
  const TWO_SLIPS_FROM = 8;
  const PAIR_FROM = 10;
  const AMOUNTS = ["weight", "length", "width", "height", "days", "locules"];
  const CHOICES = ["habit", "class", "colour", "pattern", "mark", "use", "grow", "state", "season", "words"];
  const NOT_WANTED = ["negator", "joiner", "filler", "plain"];

  /** The kind that a want stands beside as an alternative. */
  const kindOf = (want) => ({ size: "weight", earliness: "days" })[want.kind] ?? want.kind;
  const same = (one, other) => JSON.stringify(one) === JSON.stringify(other);

  /** Every phrase that is understood: `phrases` are `[phrase, kind, answer]`; `limits` say what words for sizes and
   *  earliness stand for; the words of `names` are no slips. */
  function vocabulary(phrases, limits, names) {
    const byKey = new Map();
    for (const [phrase, kind, word] of phrases) {
      const own = byKey.get(key(phrase)) ?? [];
      byKey.set(key(phrase), [...own, { kind, word }]);
    }
    const known = new Set();
    for (const name of names) {
      const words = wordsOf(name);
      if (1 < words.length && words.length <= LONGEST_PHRASE) known.add(words.join(""));
      for (const word of words) if (!byKey.has(word)) known.add(word);
    }
    const wanting = [...byKey].filter(([, own]) => !NOT_WANTED.includes(own[0].kind));
    return { byKey, names: known, limits, wanting: wanting.map(([word, own]) => [word, own[0]]) };
  }

  /** The folded words of a name, as `tokens` takes them; names are many, so the plain ones go a shorter way. */
  function wordsOf(name) {
    if (/^[\x20-\x7e]*$/.test(name) && !name.includes('"')) {
      const words = name.match(/[A-Za-z][A-Za-z']*/g) ?? [];
      return words.map((word) => word.replaceAll("'", "").toLowerCase().replaceAll("color", "colour"));
    }
    return tokens(name).map((token) => token.word).filter((word) => word !== undefined);
  }

  function meanings(words, text) {
    const cut = (ending, instead) => (text.endsWith(ending) ? [text.slice(0, -ending.length) + instead] : []);
    const forms = [text, ...cut("s", ""), ...cut("es", ""), ...cut("ies", "y")];
    return forms.map((form) => words.byKey.get(form)).find(Boolean) ?? null;
  }

  /** The wants of the first kind that a phrase means. */
  function wants(own) {
    const all = own.filter((one) => !NOT_WANTED.includes(one.kind));
    return all.filter((one) => kindOf(one) === kindOf(all[0]));
  }

  /** Letters too many, too few, wrong or changed with their neighbour (Damerau and Levenshtein). */
  function distance(one, other) {
    const [a, b] = [[...one], [...other]];
    const most = a.length + b.length;
    const rows = Array.from({ length: a.length + 2 }, () => new Array(b.length + 2).fill(0));
    rows[0][0] = most;
    for (let i = 0; i <= a.length; i += 1) [rows[i + 1][0], rows[i + 1][1]] = [most, i];
    for (let j = 0; j <= b.length; j += 1) [rows[0][j + 1], rows[1][j + 1]] = [most, j];
    const last = new Map();
    for (let i = 1; i <= a.length; i += 1) {
      let match = 0;
      for (let j = 1; j <= b.length; j += 1) {
        const before = last.get(b[j - 1]) ?? 0;
        const swap = rows[before][match] + (i - before - 1) + 1 + (j - match - 1);
        const cost = a[i - 1] === b[j - 1] ? 0 : 1;
        rows[i + 1][j + 1] = Math.min(rows[i][j] + cost, rows[i + 1][j] + 1, rows[i][j + 1] + 1, swap);
        if (cost === 0) match = j;
      }
      last.set(a[i - 1], i);
    }
    return rows[a.length + 1][b.length + 1];
  }

  /** The known phrase that a folded word, or `count` words joined, is a slip for. */
  function mended(text, count, words) {
    const letters = [...text].length;
    if (letters < (count === 1 ? MENDED_FROM : PAIR_FROM) || /\p{N}/u.test(text)) return null;
    const slips = letters < TWO_SLIPS_FROM ? 1 : 2;
    const near = [];
    for (const [known, means] of words.wanting) {
      const length = [...known].length;
      if (known[0] !== text[0] || slips < Math.abs(length - letters) || length + 1 < MENDED_FROM) continue;
      const far = distance(text, known);
      if (far <= slips) near.push({ far, known, means });
    }
    near.sort((one, other) => one.far - other.far || (one.known < other.known ? -1 : 1));
    const [first] = near;
    const isSure = first && near.every((other) => first.far < other.far || same(other.means, first.means));
    return isSure ? first.known : null;
  }

  class Reader {
    constructor(text, words) {
      Object.assign(this, { text, words, tokens: tokens(text), parts: [], barring: null });
    }

    /** Reads what stands at a token and tells where the next piece begins. */
    step(at) {
      const token = this.tokens[at];
      if (token.quoted !== undefined) return this.take(at, at + 1, [{ kind: "words", word: token.quoted }]);
      if (token.sign !== undefined && ",/&".includes(token.sign)) return this.join("loosely", at + 1);
      if (token.sign !== undefined && ";.\n".includes(token.sign)) return this.stop(at + 1);
      const found = amount(this.tokens, at);
      if (found) return this.take(at, found.end, [found.want]);
      return this.phrase(at) ?? this.leftOver(at);
    }

    phrase(at) {
      for (let count = LONGEST_PHRASE; 2 <= count; count -= 1) {
        const end = this.known(at, count);
        if (end !== null) return end;
      }
      return this.slip(at, 2) ?? this.known(at, 1) ?? this.slip(at, 1);
    }

    known(at, count) {
      const run = this.joined(at, count);
      if (!run) return null;
      const end = at + count;
      if (1 < count && this.words.names.has(run.key)) return this.take(at, end, [{ kind: "words", word: run.said }]);
      const own = meanings(this.words, run.key);
      if (!own) return null;
      const wanted = wants(own);
      if (wanted.length) return this.take(at, end, wanted);
      if (own[0].kind === "negator") return this.bar(end);
      if (own[0].kind === "joiner") return this.join(run.key === "and" ? "loosely" : "closely", end);
      if (own[0].kind === "filler") return end;
      return this.take(at, end, [{ kind: "words", word: run.said }]);
    }

    slip(at, count) {
      const run = this.joined(at, count);
      if (!run) return null;
      const isKnown = (word) => meanings(this.words, word) !== null || this.words.names.has(word);
      if (run.words.every(isKnown) || this.words.names.has(run.key)) return null;
      const word = mended(run.key, count, this.words);
      const wanted = word === null ? [] : wants(meanings(this.words, word));
      return wanted.length ? this.take(at, at + count, wanted, word) : null;
    }

    /** The folded words of a run of tokens, and the run as it stands, if it is all words. */
    joined(at, count) {
      const run = this.tokens.slice(at, at + count);
      const words = run.map((token) => token.word);
      if (run.length < count || words.includes(undefined)) return null;
      return { words, key: words.join(""), said: this.text.slice(run[0].from, run.at(-1).to).toLowerCase() };
    }

    leftOver(at) {
      const token = this.tokens[at];
      const said = this.text.slice(token.from, token.to).toLowerCase();
      if (token.number !== undefined) {
        const isYear = /^[0-9]{4}$/.test(said) && 1900 <= token.number && token.number <= 2199;
        return this.take(at, at + 1, [isYear ? { kind: "season", word: said } : { kind: "words", word: said }]);
      }
      return token.word === undefined ? at + 1 : this.take(at, at + 1, [{ kind: "words", word: said }]);
    }

    take(from, end, wanted, mended = null) {
      const kind = kindOf(wanted[0]);
      const { barring } = this;
      const isBarred = barring !== null && (barring.next || barring.joined === "closely" ||
        (barring.joined === "loosely" && barring.kind === kind));
      this.barring = isBarred ? { kind, joined: "no" } : null;
      const said = this.text.slice(this.tokens[from].from, this.tokens[end - 1].to);
      this.parts.push({ said, wants: wanted, isBarred, mended });
      return end;
    }

    bar(end) {
      this.barring = { next: true };
      return end;
    }

    join(how, end) {
      const { barring } = this;
      if (!barring || barring.next) this.barring = null;
      else if (barring.joined !== "closely") this.barring = { kind: barring.kind, joined: how };
      return end;
    }

    stop(end) {
      this.barring = null;
      return end;
    }
  }

  /** Reads what a text asks for: its `parts`, and the `wish` that they make. */
  function read(text, words) {
    const reader = new Reader(text, words);
    for (let at = 0; at < reader.tokens.length; ) at = Math.max(reader.step(at), at + 1);
    return { parts: reader.parts, wish: gathered(reader.parts, words.limits) };
  }

  /** A wish: of each choice what is `wanted` and `barred`, of each amount its alternatives. */
  function gathered(parts, limits) {
    const wish = {};
    for (const kind of CHOICES) wish[kind] = { wanted: [], barred: [] };
    for (const kind of AMOUNTS) wish[kind] = [];
    const sizes = [];
    for (const { wants, isBarred } of parts) {
      for (const want of wants) {
        if (want.kind === "size") sizes.push({ want, isBarred });
        else if (want.kind === "earliness") earliness(wish, want, isBarred, limits);
        else if (AMOUNTS.includes(want.kind)) limit(wish[want.kind], want, isBarred);
        else choose(wish[want.kind], want.word, isBarred);
      }
    }
    if (wish.weight.length === 0 && wish.class.wanted.length === 0) {
      for (const { want, isBarred } of sizes) limit(wish.weight, limits.sizes[want.word], isBarred);
    }
    return wish;
  }

  function earliness(wish, want, isBarred, limits) {
    const days = isBarred ? limits.otherDays[want.word] : limits.days[want.word];
    if (days) limit(wish.days, days, false);
  }

  function choose(choice, word, isBarred) {
    const chosen = isBarred ? choice.barred : choice.wanted;
    if (!chosen.includes(word)) chosen.push(word);
  }

  function limit(amounts, { how, low, high }, isBarred) {
    let amount = { how, low, high };
    if (isBarred) {
      if (how === "least") amount = { how: "most", low: null, high: low };
      else if (how === "most") amount = { how: "least", low: high, high: null };
      else return;
    }
    const last = amounts.at(-1);
    const [least, most] = last?.how === "least" ? [last, amount] : [amount, last];
    const isRange = last && least.how === "least" && most.how === "most" && least.low <= most.high;
    if (isRange) {
      amounts.pop();
      amount = { how: "between", low: least.low, high: most.high };
    }
    if (!amounts.some((other) => same(other, amount))) amounts.push(amount);
  }

  Object.assign(globalThis.locule, { vocabulary, read, AMOUNTS, CHOICES });
})();
