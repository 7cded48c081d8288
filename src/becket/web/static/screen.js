/*
 * What every screen at the crane has: its place on the page, its title, its foot.
 *
 * In:    a scene: the script, the state, the people, what is on the page.
 * Out:   elements, put on the page.
 * Never: a screen that leaves by itself; a second tap that counts for the next screen.
 */

import { element } from "./element.js";
import { word } from "./words.js";

/**
 * What the screens share.
 * @typedef {object} Scene
 * @property {object} script
 * @property {object} state what the fold says
 * @property {{id: string, crane: string, operator: string, rigger: string}} run
 * @property {Array<{id: string, name: string, role: string, licence: string}>} people the crew list
 * @property {HTMLElement} main where the screen stands
 * @property {HTMLElement} foot
 * @property {object} local what this page alone knows: which part of the screen, what is typed
 * @property {function(object): void} go show another part of this screen
 * @property {function(string, object, object=): Promise<void>} write keep an event, then show what follows
 */

/**
 * Put a screen on the page.
 * @param {Scene} scene
 * @param {Array<Node|null|false|undefined>} body
 * @param {Array<Node|null|false|undefined>} foot
 */
export function show(scene, body, foot) {
    scene.main.replaceChildren(...body.filter(Boolean));
    scene.foot.replaceChildren(...foot.filter(Boolean));
    scene.foot.hidden = scene.foot.childElementCount === 0;
    scene.foot.classList.toggle("one-above-other", !scene.foot.querySelector(".stop"));
    window.scrollTo(0, 0);
    scene.main.querySelector("h1")?.focus({ preventScroll: true });
}

/**
 * Return the title of a screen: the largest words of it.
 * @param {string} text
 * @returns {HTMLElement}
 */
export function title(text) {
    return element("h1", { class: "do", tabindex: "-1", text });
}

/**
 * Return a paragraph.
 * @param {string} text
 * @param {string} [kind] class
 * @returns {HTMLElement}
 */
export function line(text, kind = null) {
    return element("p", { class: kind, text });
}

/**
 * Return the button of a screen. The second tap of a double tap is not for it: the screen under the finger changed.
 * @param {string|string[]} lines
 * @param {function(): void} act
 * @param {string} [kind] class
 * @returns {HTMLElement}
 */
export function action(lines, act, kind = "action") {
    const tapped = (event) => {
        if (event.detail < 2) act();
    };
    const words = [lines].flat().map((text) => element("span", { text }));
    return element("button", { type: "button", class: kind, click: tapped }, ...words);
}

/**
 * Return the STOP of a screen.
 * @param {Scene} scene
 * @returns {HTMLElement}
 */
export function stopKey(scene) {
    return action(word("run.stop"), () => scene.go({ stopping: "ask" }), "stop");
}

/**
 * Return the row that says whose screen it is.
 * @param {string} who operator, rigger, both
 * @param {Array<string|null|undefined|false>} plates what else: what the other one does, which of how many
 * @param {boolean} [alone]
 * @returns {HTMLElement}
 */
export function whose(who, plates, alone = false) {
    const said = alone ? word("run.alone", { role: word(`run.plate.${who}`) }) : word(`run.plate.${who}`);
    const rest = plates.filter(Boolean).map((text) => element("span", { class: "hands", text }));
    return element("p", { class: "who" }, element("strong", { class: "role", text: said }), ...rest);
}

/**
 * Return the name of a person of the crew list.
 * @param {Scene} scene
 * @param {string} id
 * @returns {string}
 */
export function nameOf(scene, id) {
    return scene.people.find((person) => person.id === id)?.name ?? id;
}

/**
 * Return the item that is asked now.
 * @param {Scene} scene
 * @returns {object}
 */
export function itemNow(scene) {
    return scene.script.items.find((item) => item.id === scene.state.at);
}

/**
 * Return the round that an item is asked in.
 * @param {Scene} scene
 * @param {object} item
 * @returns {number}
 */
export function roundOf(scene, item) {
    return scene.state.items[item.id].round;
}

/**
 * Return which of how many an item of a pause is, or null.
 * @param {Scene} scene
 * @param {object} item
 * @returns {?string}
 */
export function placeInPause(scene, item) {
    if (!item.part.startsWith("pause-")) return null;
    const part = scene.script.items.filter((one) => one.part === item.part);
    return word("run.pause", { n: item.part.slice(6), at: part.indexOf(item) + 1, of: part.length });
}

/**
 * Return how many falls a state has, as written.
 * @param {?string} state "main:4"
 * @returns {string}
 */
export function fallsOf(state) {
    return state === null ? "?" : state.slice(state.lastIndexOf(":") + 1);
}
