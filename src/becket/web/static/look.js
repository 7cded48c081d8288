/* The look before the first paint: light, text size, units as this phone keeps them.

   In:    localStorage "look": {"theme": "sun" | "night", "text": "normal" | "large", "units": "metric" | "us"}.
   Out:   data-theme and data-text on the root element, and data-js: scripts run; nothing else.
   Never: a wait, a word on the page, anything asked of the server. A classic script in the head, so that nothing moves.
*/
(function () {
    "use strict";
    document.documentElement.setAttribute("data-js", "yes");
    var allowed = { theme: ["sun", "night"], text: ["normal", "large"] };
    var kept;
    try {
        kept = JSON.parse(localStorage.getItem("look") || "{}") || {};
    } catch (error) {
        kept = {}; // storage refused or spoilt: the look that the server wrote stays
    }
    Object.keys(allowed).forEach(function (name) {
        if (allowed[name].indexOf(kept[name]) >= 0) {
            document.documentElement.setAttribute("data-" + name, kept[name]);
        }
    });
})();
