// Runs before the page is drawn: what needs script is shown only where there is script, and what finds its width only
// when it is whole is shown then, so that nothing jumps.
"use strict";
document.documentElement.classList.add("scripted");
document.addEventListener("readystatechange", () => document.documentElement.classList.add("whole"), { once: true });
