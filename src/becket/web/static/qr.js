/*
 * A QR code (ISO/IEC 18004), made on the phone itself: what one phone shows and another reads without a network.
 * In:    text, at most 660 bytes of UTF-8.
 * Out:   rows of true (dark) and false, quiet zone not counted; the same as an SVG element.
 * Never: reading a code; a code with less error correction than level M.
 */

// level M, versions 1 to 20: error correction codewords a block, then [blocks, data codewords] of each kind of block
const BLOCKS = [
    [10, [1, 16]], [16, [1, 28]], [26, [1, 44]], [18, [2, 32]], [24, [2, 43]],
    [16, [4, 27]], [18, [4, 31]], [22, [2, 38], [2, 39]], [22, [3, 36], [2, 37]], [26, [4, 43], [1, 44]],
    [30, [1, 50], [4, 51]], [22, [6, 36], [2, 37]], [22, [8, 37], [1, 38]], [24, [4, 40], [5, 41]],
    [24, [5, 41], [5, 42]], [28, [7, 45], [3, 46]], [28, [10, 46], [1, 47]], [26, [9, 43], [4, 44]],
    [26, [3, 44], [11, 45]], [26, [3, 41], [13, 42]],
];
// centres of the alignment patterns, versions 2 to 20
const CENTRES = [
    [6, 18], [6, 22], [6, 26], [6, 30], [6, 34], [6, 22, 38], [6, 24, 42], [6, 26, 46], [6, 28, 50], [6, 30, 54],
    [6, 32, 58], [6, 34, 62], [6, 26, 46, 66], [6, 26, 48, 70], [6, 26, 50, 74], [6, 30, 54, 78], [6, 30, 56, 82],
    [6, 30, 58, 86], [6, 34, 62, 90],
];
const MASKS = [
    (y, x) => (y + x) % 2 === 0,
    (y) => y % 2 === 0,
    (y, x) => x % 3 === 0,
    (y, x) => (y + x) % 3 === 0,
    (y, x) => (Math.floor(y / 2) + Math.floor(x / 3)) % 2 === 0,
    (y, x) => ((y * x) % 2) + ((y * x) % 3) === 0,
    (y, x) => (((y * x) % 2) + ((y * x) % 3)) % 2 === 0,
    (y, x) => (((y + x) % 2) + ((y * x) % 3)) % 2 === 0,
];
const EXP = new Uint8Array(512);
const LOG = new Uint8Array(256);
for (let i = 0, value = 1; i < 255; i += 1) {
    EXP[i] = value;
    EXP[i + 255] = value;
    LOG[value] = i;
    value = (value << 1) ^ (value & 128 ? 0x11d : 0);
}

/**
 * The dark modules of a text.
 * @param {string} text
 * @param {number|null} mask 0 to 7; null: the one that is read most easily
 * @returns {boolean[][]} rows
 */
export function qrModules(text, mask = null) {
    const bytes = new TextEncoder().encode(text);
    const version = versionFor(bytes.length);
    const bits = interleaved(version, dataWords(version, bytes));
    const made = (mask === null ? MASKS.map((_, one) => one) : [mask]).map((one) => drawn(version, bits, one));
    return made.reduce((best, one) => (penalty(one) < penalty(best) ? one : best));
}

/**
 * A QR code as an SVG element, quiet zone of four modules in it.
 * @param {string} text
 * @param {string} label what a person is told that it is
 * @returns {SVGElement}
 */
export function qrPicture(text, label) {
    const rows = qrModules(text);
    const side = rows.length + 8;
    const picture = svg("svg", { viewBox: `0 0 ${side} ${side}`, role: "img", "aria-label": label, class: "qr" });
    const squares = rows.flatMap((row, y) => row.flatMap((dark, x) => (dark ? [`M${x + 4} ${y + 4}h1v1h-1z`] : [])));
    picture.append(svg("rect", { width: side, height: side, fill: "#fff" }));
    picture.append(svg("path", { d: squares.join(""), fill: "#000", "shape-rendering": "crispEdges" }));
    return picture;
}

function svg(name, attributes) {
    const element = document.createElementNS("http://www.w3.org/2000/svg", name);
    Object.entries(attributes).forEach(([key, value]) => element.setAttribute(key, value));
    return element;
}

function kinds(version) {
    const [correction, ...groups] = BLOCKS[version - 1];
    return { correction, sizes: groups.flatMap(([count, size]) => Array(count).fill(size)) };
}

function room(version) {
    return kinds(version).sizes.reduce((sum, size) => sum + size, 0);
}

function versionFor(length) {
    for (let version = 1; version <= BLOCKS.length; version += 1) {
        const header = version < 10 ? 2 : 3;
        if (length + header <= room(version)) return version;
    }
    throw new RangeError(`${length} bytes do not fit into a code that a phone reads easily`);
}

function dataWords(version, bytes) {
    const bits = [0, 1, 0, 0, ...binary(bytes.length, version < 10 ? 8 : 16)];
    bytes.forEach((byte) => bits.push(...binary(byte, 8)));
    const wanted = room(version) * 8;
    bits.push(...Array(Math.min(4, wanted - bits.length)).fill(0));
    while (bits.length % 8) bits.push(0);
    const words = [];
    for (let i = 0; i < bits.length; i += 8) words.push(parseInt(bits.slice(i, i + 8).join(""), 2));
    for (let pad = 0; words.length < wanted / 8; pad += 1) words.push(pad % 2 ? 0x11 : 0xec);
    return words;
}

function interleaved(version, words) {
    const { correction, sizes } = kinds(version);
    let start = 0;
    const blocks = sizes.map((size) => words.slice(start, (start += size)));
    const checks = blocks.map((block) => remainder(block, correction));
    const out = [];
    for (let i = 0; i < Math.max(...sizes); i += 1) blocks.forEach((b) => i < b.length && out.push(b[i]));
    for (let i = 0; i < correction; i += 1) checks.forEach((check) => out.push(check[i]));
    return out.flatMap((word) => binary(word, 8));
}

function remainder(block, count) {
    let generator = [1];
    for (let i = 0; i < count; i += 1) {
        const next = [...generator, 0];
        generator.forEach((factor, k) => (next[k + 1] ^= times(factor, EXP[i])));
        generator = next;
    }
    const rest = [...block, ...Array(count).fill(0)];
    block.forEach((_, i) => {
        const lead = rest[i];
        if (lead) generator.forEach((factor, k) => (rest[i + k] ^= times(factor, lead)));
    });
    return rest.slice(block.length);
}

function times(a, b) {
    return a && b ? EXP[LOG[a] + LOG[b]] : 0;
}

function binary(value, width) {
    return Array.from({ length: width }, (_, i) => (value >> (width - 1 - i)) & 1);
}

function drawn(version, bits, mask) {
    const side = 17 + 4 * version;
    const rows = Array.from({ length: side }, () => Array(side).fill(null));
    finders(rows);
    alignment(rows, version);
    for (let i = 8; i < side - 8; i += 1) rows[6][i] = rows[i][6] = i % 2 === 0;
    format(rows, mask);
    if (version >= 7) versionBits(rows, version);
    const fixed = rows.map((row) => row.map((one) => one !== null));
    let next = 0;
    for (let right = side - 1; right > 0; right -= 2) {
        if (right === 6) right = 5;
        for (let step = 0; step < side; step += 1) {
            const up = ((right + 1) & 2) === 0;
            const y = up ? side - 1 - step : step;
            for (const x of [right, right - 1]) {
                if (fixed[y][x]) continue;
                rows[y][x] = Boolean(bits[next] ?? 0) !== MASKS[mask](y, x);
                next += 1;
            }
        }
    }
    return rows;
}

function finders(rows) {
    const last = rows.length - 7;
    for (const [top, left] of [[0, 0], [0, last], [last, 0]]) {
        for (let y = -1; y <= 7; y += 1) {
            for (let x = -1; x <= 7; x += 1) {
                if (rows[top + y]?.[left + x] === undefined) continue;
                const ring = Math.max(Math.abs(y - 3), Math.abs(x - 3));
                rows[top + y][left + x] = ring !== 2 && ring !== 4;
            }
        }
    }
}

function alignment(rows, version) {
    const centres = version === 1 ? [] : CENTRES[version - 2];
    for (const cy of centres) {
        for (const cx of centres) {
            if (rows[cy][cx] !== null) continue;
            for (let y = -2; y <= 2; y += 1) {
                for (let x = -2; x <= 2; x += 1) rows[cy + y][cx + x] = Math.max(Math.abs(y), Math.abs(x)) !== 1;
            }
        }
    }
}

function format(rows, mask) {
    const side = rows.length;
    let rest = mask << 10; // level M is 00
    for (let i = 4; i >= 0; i -= 1) if ((rest >> (i + 10)) & 1) rest ^= 0x537 << i;
    const word = ((mask << 10) | rest) ^ 0x5412;
    for (let i = 0; i < 15; i += 1) {
        const dark = Boolean((word >> i) & 1);
        rows[i < 6 ? i : i < 8 ? i + 1 : side - 15 + i][8] = dark;
        rows[8][i < 8 ? side - 1 - i : i < 9 ? 7 : 14 - i] = dark;
    }
    rows[side - 8][8] = true;
}

function versionBits(rows, version) {
    const side = rows.length;
    let rest = version << 12;
    for (let i = 5; i >= 0; i -= 1) if ((rest >> (i + 12)) & 1) rest ^= 0x1f25 << i;
    const word = (version << 12) | rest;
    for (let i = 0; i < 18; i += 1) {
        const [near, far] = [Math.floor(i / 3), side - 11 + (i % 3)];
        rows[near][far] = rows[far][near] = Boolean((word >> i) & 1);
    }
}

function penalty(rows) {
    const columns = rows.map((_, x) => rows.map((row) => row[x]));
    const lines = [...rows, ...columns].map((line) => line.map((dark) => (dark ? "1" : "0")).join(""));
    let sum = 0;
    for (const line of lines) {
        for (const run of line.match(/0+|1+/g)) if (run.length >= 5) sum += run.length - 2;
        for (const [sign] of line.matchAll(/(?=(10111010000|00001011101))/g)) sum += 40 + sign.length;
    }
    for (let y = 1; y < rows.length; y += 1) {
        for (let x = 1; x < rows.length; x += 1) {
            const dark = rows[y][x];
            if (dark === rows[y - 1][x] && dark === rows[y][x - 1] && dark === rows[y - 1][x - 1]) sum += 3;
        }
    }
    const share = rows.flat().filter(Boolean).length / rows.length ** 2;
    return sum + 10 * Math.floor(Math.abs(share - 0.5) * 20);
}
