/*
 * Between two counts: the phone goes from hand to hand, four digits open the next count.
 *
 * In:    the scene and the blind item that is asked now.
 * Out:   the screen; who has opened it.
 * Never: a number, the pattern, what the first one counted; a count opened by the other person's digits.
 */

import { element } from "./element.js";
import { digitsPad } from "./pad.js";
import { areDigitsOf, checkDigits, setHolder, waitFor } from "./people.js";
import { action, itemNow, line, nameOf, show, stopKey } from "./screen.js";
import { hadOtherPhone } from "./two-phones.js";
import { word } from "./words.js";

/**
 * Show whose count is next and take the four digits that open it.
 * @param {import("./screen.js").Scene} scene
 */
export function drawHandover(scene) {
    const item = itemNow(scene);
    const role = item.who;
    const hidden = isOneHidden(scene, item);
    const other = role === "operator" ? "rigger" : "operator";
    const names = { role: word(`run.role.${role}`), Other: word(`run.Role.${other}`), Role: word(`run.Role.${role}`) };
    drawDigits(scene, {
        role,
        hatched: hidden,
        title: hidden ? [word("run.hidden"), word("run.give", names)] : [word("run.give", names)],
        text: hidden ? word("run.say_no_number", names) : word("run.alone_count", names),
        ask: word("run.your_digits", names),
        opened: () => scene.go({ opened: scene.run[role] }),
        foot: [!hidden && stopKey(scene), !scene.local.handing && hadOtherPhone(scene, role)
            && action(word("two.elsewhere"), () => void scene.again({ elsewhere: role }), "action second")],
    });
}

function isOneHidden(scene, item) {
    const group = scene.script.groups.find((one) => one.name === item.group);
    return (group?.items ?? []).some((id) => id !== item.id && scene.state.items[id].done);
}

/**
 * Show a screen that only one person's digits open.
 * @param {import("./screen.js").Scene} scene
 * @param {{role: string, hatched: boolean, title: string[], text: string, ask: string, opened: function(): void,
 *     foot: Node[]}} how
 */
export function drawDigits(scene, how) {
    const said = element("p", { class: "said", role: "alert", text: how.text });
    const pad = digitsPad(async (digits) => {
        const verdict = await whoseDigits(scene, how.role, digits);
        if (verdict === null) {
            await setHolder(scene.run[how.role]);
            scene.holder = scene.run[how.role];
            how.opened();
            return;
        }
        said.textContent = verdict;
        said.classList.add("say");
        pad.clear();
    });
    const words = element("h1", { class: "do hand-over", tabindex: "-1" }, ...how.title.map((text) => element("span", { text })));
    show(scene, [
        how.hatched && element("div", { class: "hatched-line", "aria-hidden": "true" }),
        words,
        said,
        line(how.ask),
        pad.node,
        how.hatched && element("div", { class: "hatched-line", "aria-hidden": "true" }),
    ], how.foot);
}

/** Return null where the digits are those of the role, else what is said. */
async function whoseDigits(scene, role, digits) {
    const other = role === "operator" ? "rigger" : "operator";
    const names = {
        role: word(`run.role.${role}`), Role: word(`run.Role.${role}`), other: word(`run.role.${other}`),
        name: nameOf(scene, scene.run[role]),
    };
    const wait = await waitFor(scene.run[role]);
    if (wait > 0) return word("run.digits.wait", { ...names, wait });
    const [own, others] = await Promise.all([
        checkDigits(scene.run[role], digits), areDigitsOf(scene.run[other], digits),
    ]);
    if (own && others) return word("run.digits.same", names);
    if (own) return null;
    return word(others ? "run.digits.others" : "run.digits.wrong", names);
}
