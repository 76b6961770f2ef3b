// A text taken apart into words, numbers, signs and what stands in quotation marks: crate `wording`, file `tokens`,
// done again for pages that have no program behind them. A test reads the same requests with both.
"use strict";
(() => {
  const SIGNS = ",;.()/+~<>≤≥:&\n";
  const DASHES = "-\u2010\u2011\u2012\u2013\u2014\u2212";
  const FRACTIONS = { "½": 0.5, "¼": 0.25, "¾": 0.75, "⅓": 1 / 3, "⅔": 2 / 3 };
  const isLetter = (sign) => /^\p{Alphabetic}$/u.test(sign);
  const isDigit = (sign) => sign >= "0" && sign <= "9" && sign.length === 1;

  /** The form in which words are compared: small letters and figures only, British spelling. */
  function key(text) {
    return text.replace(/[^\p{Alphabetic}\p{N}]/gu, "").toLowerCase().replaceAll("color", "colour");
  }

  /** Takes a text apart: each token has `from` and `to`, and one of `word`, `number`, `sign`, `quoted`. */
  function tokens(text) {
    const found = [];
    for (let from = 0; from < text.length; ) {
      const sign = String.fromCodePoint(text.codePointAt(from));
      const afterFigure = 0 < from && isDigit(text[from - 1]);
      const [length, is] = token(text.slice(from), sign, afterFigure);
      if (is) found.push({ from, to: from + length, ...is });
      from += Math.max(length, sign.length);
    }
    return found;
  }

  function token(rest, sign, afterFigure) {
    if (sign in FRACTIONS) return [1, { number: FRACTIONS[sign] }];
    if (isDigit(sign)) return number(rest);
    if (isLetter(sign)) {
      const [word] = rest.match(/^[\p{Alphabetic}'\u2019]+/u);
      return [word.length, { word: key(word) }];
    }
    if ('"\u201c\u201d\u2033'.includes(sign)) return quoted(rest, afterFigure);
    if (afterFigure && "'\u2019\u2032".includes(sign)) return [1, { sign: "'" }];
    if (DASHES.includes(sign)) {
      const beforeFigure = /^\s*[0-9]/u.test(rest.slice(1));
      return [1, afterFigure || beforeFigure ? { sign: "-" } : null];
    }
    return [sign.length, SIGNS.includes(sign) ? { sign } : null];
  }

  /** A figure: `12`, `2.5`, `2,5`, `1,200`. */
  function number(rest) {
    const [, whole, point, fraction] = rest.match(/^([0-9]+)(?:([.,])([0-9]+))?/);
    if (!fraction) return [whole.length, { number: Number(whole) }];
    const isGroup = point === "," && fraction.length === 3;
    const text = isGroup ? whole + fraction : `${whole}.${fraction}`;
    return [whole.length + 1 + fraction.length, { number: Number(text) }];
  }

  /** An inch mark behind a figure, else what stands up to the closing mark. */
  function quoted(rest, afterFigure) {
    if (afterFigure) return [1, { sign: '"' }];
    const close = rest.slice(1).search(/["\u201c\u201d]/);
    if (close < 0) return [1, null];
    const said = rest.slice(1, 1 + close).split(/\s+/u).filter(Boolean).join(" ").toLowerCase();
    return [close + 2, said ? { quoted: said } : null];
  }

  Object.assign((globalThis.locule ??= {}), { tokens, key });
})();
