// Reads what a browser printed: for each page its size and the lines drawn on it, in millimetres from the lower
// left corner. Knows what Chromium writes (PDF 1.4, ISO 32000-1): plain objects, deflated streams.
import { inflateSync } from 'node:zlib';

const MM = 25.4 / 72;
const UNMOVED = [1, 0, 0, 1, 0, 0];
const NUMBERS = { cm: 6, m: 2, l: 2, c: 6, v: 4, y: 4, re: 4, Tm: 6 };

/** The pages of a PDF: `width`, `height`, `lines` (one for each stroked piece, as points), `written` (the height of each text), `lowest` (of the last). */
export function readPdf(bytes) {
  const file = new Objects(bytes);
  const root = file.dictionary(/\/Root (\d+) 0 R/.exec(file.text)[1]);
  return file.pages(/\/Pages (\d+) 0 R/.exec(root)[1]).map((page) => {
    const [, , width, height] = /\/MediaBox \[([^\]]+)\]/.exec(page)[1].trim().split(/\s+/).map(Number);
    const drawn = { width: width * MM, height: height * MM, lines: [], written: [], lowest: height * MM };
    const contents = /\/Contents (\d+) 0 R/.exec(page)[1];
    draw(file, file.stream(contents), page, UNMOVED, drawn);
    drawn.lowest = Math.min(drawn.lowest, ...drawn.written);
    return drawn;
  });
}

/** How far apart two points are. */
export function apart([x1, y1], [x2, y2]) {
  return Math.hypot(x2 - x1, y2 - y1);
}

class Objects {
  constructor(bytes) {
    this.bytes = bytes;
    this.text = bytes.toString('latin1');
    this.places = new Map();
    for (const found of this.text.matchAll(/(?:^|[\r\n])(\d+) 0 obj\b/g)) {
      this.places.set(found[1], found.index + found[0].length);
    }
  }

  /** The object up to its stream or end. */
  dictionary(number) {
    const start = this.places.get(String(number));
    const [end] = [this.text.indexOf('endobj', start), this.text.indexOf('stream', start)]
      .filter((place) => place > 0)
      .sort((a, b) => a - b);
    return this.text.slice(start, end);
  }

  stream(number) {
    const dictionary = this.dictionary(number);
    const start = this.places.get(String(number)) + dictionary.length + 'stream'.length;
    const begin = this.text[start] === '\r' ? start + 2 : start + 1;
    const length = Number(/\/Length (\d+)/.exec(dictionary)[1]);
    const content = this.bytes.subarray(begin, begin + length);
    return (dictionary.includes('/FlateDecode') ? inflateSync(content) : content).toString('latin1');
  }

  pages(number) {
    const node = this.dictionary(number);
    if (!node.includes('/Kids')) return [node];
    const kids = /\/Kids \[([^\]]*)\]/.exec(node)[1].matchAll(/(\d+) 0 R/g);
    return [...kids].flatMap(([, kid]) => this.pages(kid));
  }

  /** The number of a form that a page names. */
  form(resources, name) {
    const inner = /\/Resources (\d+) 0 R/.exec(resources);
    const text = inner ? this.dictionary(inner[1]) : resources;
    return new RegExp(`/${name} (\\d+) 0 R`).exec(text)?.[1];
  }
}

function draw(file, content, resources, outer, drawn) {
  let matrix = outer;
  const kept = [];
  let given = [];
  let path = [];
  const at = (x, y) => [
    (matrix[0] * x + matrix[2] * y + matrix[4]) * MM,
    (matrix[1] * x + matrix[3] * y + matrix[5]) * MM,
  ];
  for (const token of content.match(/\((?:\\.|[^\\)])*\)|<[^<>]*>|\/[^\s/[\]<>()]+|[^\s[\]<>()/]+/g) ?? []) {
    if (/^[-+.\d]/.test(token)) {
      given.push(Number(token));
      continue;
    }
    if (token[0] === '/') {
      given = [token.slice(1)];
      continue;
    }
    const numbers = NUMBERS[token] ? given.slice(-NUMBERS[token]) : given;
    const [a, b, c, d] = numbers;
    switch (token) {
      case 'q': kept.push(matrix); break;
      case 'Q': matrix = kept.pop() ?? outer; break;
      case 'cm': matrix = times(numbers, matrix); break;
      case 'm': path.push([at(a, b)]); break;
      case 'l': path.at(-1)?.push(at(a, b)); break;
      case 'c': case 'v': case 'y': path.at(-1)?.push(at(...numbers.slice(-2))); break;
      case 're': path.push([at(a, b), at(a + c, b), at(a + c, b + d), at(a, b + d), at(a, b)]); break;
      case 'h': if (path.length) path.at(-1).push(path.at(-1)[0]); break;
      case 'S': case 's': case 'B': case 'b': drawn.lines.push(...path); path = []; break;
      case 'f': case 'f*': case 'n': path = []; break;
      case 'Tm': drawn.written.push(at(...numbers.slice(-2))[1]); break;
      case 'Do': {
        const number = file.form(resources, given[0]);
        const form = number && file.dictionary(number);
        if (form?.includes('/Form')) {
          const own = /\/Matrix \[([^\]]+)\]/.exec(form)?.[1].trim().split(/\s+/).map(Number) ?? UNMOVED;
          draw(file, file.stream(number), form, times(own, matrix), drawn);
        }
        break;
      }
      default:
    }
    given = [];
  }
}

/** First `a`, then `b`. */
function times(a, b) {
  return [
    a[0] * b[0] + a[1] * b[2],
    a[0] * b[1] + a[1] * b[3],
    a[2] * b[0] + a[3] * b[2],
    a[2] * b[1] + a[3] * b[3],
    a[4] * b[0] + a[5] * b[2] + b[4],
    a[4] * b[1] + a[5] * b[3] + b[5],
  ];
}
