// Runs before the page is drawn: what needs script is shown only where there is script, and nothing jumps.
"use strict";
document.documentElement.classList.add("scripted");
