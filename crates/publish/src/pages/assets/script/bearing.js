// Plants of one variety, or of two, that keep a wish by themselves: crate `advice`, file `by_itself`, done again. All is
// counted in tens of grams, in whole numbers, so that the page comes to the very same answers; see docs/web-pages.md.
"use strict";
(() => {
  const FIGURES = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz-_";
  const MOST_PLANTS = 200;
  const OF = new Map([...FIGURES].map((figure, at) => [figure, at]));

  /** What a plant bears, as it is written in the data: an array of weeks for every sampled year. */
  function unpacked([first, told, written], weeks) {
    const years = told === 0 ? 0 : written.length / (2 * told);
    return Array.from({ length: years }, (_, year) => {
      const own = new Array(weeks).fill(0);
      for (let week = 0; week < told; week += 1) {
        const at = 2 * (year * told + week);
        own[first + week] = 64 * OF.get(written[at]) + OF.get(written[at + 1]);
      }
      return own;
    });
  }

  /** The fewest plants of `second` that keep the wish in one year beside so many of `first`; `null` where none do.
   *  `want` is `{ tens, days, weeks: [from, to] }`; `days` is `null` at the table, else `[days, a day]`. */
  function moreOf(first, plants, second, want) {
    const [from, to] = want.weeks;
    return want.days === null ? moreEachWeek(first, plants, second, want.tens, from, to)
      : moreOnDays(first, plants, second, want, from, to);
  }

  function moreEachWeek(first, plants, second, tens, from, to) {
    let most = 0;
    for (let week = from; week <= to; week += 1) {
      const lacking = Math.max(0, tens - plants * (first === null ? 0 : first[week]));
      if (lacking === 0) continue;
      if (second[week] === 0) return null;
      const more = Math.ceil(lacking / second[week]);
      if (MOST_PLANTS < more) return null;
      most = Math.max(most, more);
    }
    return most;
  }

  function moreOnDays(first, plants, second, { tens, days: [days, aDay] }, from, to) {
    const putUp = (more) => {
      const weeks = [];
      for (let week = from; week <= to; week += 1) {
        weeks.push(Math.min(plants * (first === null ? 0 : first[week]) + more * second[week], aDay));
      }
      return weeks.sort((one, other) => other - one).slice(0, days).reduce((sum, own) => sum + own, 0);
    };
    if (putUp(MOST_PLANTS) < tens) return null;
    let [few, enough] = [0, MOST_PLANTS];
    while (few < enough) {
      const middle = Math.floor((few + enough) / 2);
      if (putUp(middle) < tens) few = middle + 1;
      else enough = middle;
    }
    return few;
  }

  function keptIn(each, years) {
    each.sort((one, other) => (one ?? Infinity) - (other ?? Infinity));
    return each[years - 1] ?? null;
  }

  /** The fewest plants of one variety that keep the wish in so many years; `null` where none do. */
  const ofOne = (bearing, want, years) => keptIn(bearing.map((own) => moreOf(null, 0, own, want)), years);

  /** The fewest plants of two varieties, at least one of each; `null` where none do. */
  function ofTwo(first, second, want, years) {
    let best = null;
    for (let plants = 1; plants < MOST_PLANTS; plants += 1) {
      if (best !== null && best[0] + best[1] <= plants) break;
      const more = keptIn(first.map((own, year) => moreOf(own, plants, second[year], want)), years);
      if (more === null) continue;
      const all = plants + Math.max(1, more);
      if ((best === null || all <= best[0] + best[1]) && all <= MOST_PLANTS) best = [plants, Math.max(1, more)];
    }
    return best;
  }

  /** Tens of grams that plants bring in a week of a poor, a middling and a good year (10, 50 and 90 in 100 stay below).
   *  `planted` is pairs of a bearing and a number of plants. */
  function weekTold(planted, week) {
    const years = planted[0][0].map((_, year) => planted.reduce((sum, [bearing, plants]) => sum + plants * bearing[year][week], 0));
    return told(years);
  }

  /** The week in which the first fruit is picked: in an early, a middling and a late year. */
  function firstTold(bearing) {
    const none = bearing[0]?.length ?? 0;
    return told(bearing.map((weeks) => {
      const first = weeks.findIndex((own) => 0 < own);
      return first < 0 ? none : first;
    }));
  }

  function told(years) {
    years.sort((one, other) => one - other);
    return [0.1, 0.5, 0.9].map((share) => years[Math.max(0, Math.ceil(share * years.length) - 1)]);
  }

  Object.assign((globalThis.locule ??= {}), { unpacked, ofOne, ofTwo, weekTold, firstTold });
})();
