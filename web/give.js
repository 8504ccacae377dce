// Gives the user what the program made: a file to keep, a picture, sheets to print. What needs the
// browser alone stands here, where it weighs less than in the program.
import { trusted } from './trusted.js';

const TYPES = {
  csv: 'text/csv',
  dxf: 'image/vnd.dxf',
  html: 'text/html',
  json: 'application/json',
  svg: 'image/svg+xml',
  txt: 'text/plain',
};
/** Pixels of an inch of paper, and the longest side that every browser draws. */
const SHARPNESS = 300;
const LONGEST = 8192;

/** Keeps a text under a file name; draws it first for a picture; prints it where there is no name. */
export function give(name, text) {
  const ending = name.split('.').pop();
  if (!name) return print(text);
  if (ending === 'png') return picture(name, text);
  return keep(name, new Blob([text], { type: `${TYPES[ending]};charset=utf-8` }));
}

function keep(name, blob) {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(blob);
  link.download = name;
  link.click();
  // Some browsers read it only after a while.
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
}

async function picture(name, svg) {
  const address = URL.createObjectURL(new Blob([svg], { type: TYPES.svg }));
  const image = new Image();
  image.src = address;
  await image.decode();
  const longest = Math.max(image.naturalWidth, image.naturalHeight);
  const scale = Math.min(SHARPNESS / 96, LONGEST / longest);
  const canvas = document.createElement('canvas');
  canvas.width = Math.round(image.naturalWidth * scale);
  canvas.height = Math.round(image.naturalHeight * scale);
  const pen = canvas.getContext('2d');
  pen.fillStyle = '#fff';
  pen.fillRect(0, 0, canvas.width, canvas.height);
  pen.drawImage(image, 0, 0, canvas.width, canvas.height);
  URL.revokeObjectURL(address);
  canvas.toBlob((blob) => keep(name, blob));
}

/** Shows the sheets to the printer alone. Their look comes as an object, which the policy of the page
 *  allows; the sheets as XML, in which a text cannot become an element. */
function print(text) {
  const [style, article] = text.split('\u001f');
  const sheets = new DOMParser().parseFromString(trusted.createHTML(article), 'application/xhtml+xml');
  const paper = document.importNode(sheets.documentElement, true);
  const look = new CSSStyleSheet({ media: 'print' });
  look.replaceSync(style);
  document.adoptedStyleSheets.push(look);
  document.body.append(paper);
  document.documentElement.classList.add('on-paper');
  // Later prints are of the page again: the design may have changed by then.
  addEventListener('afterprint', () => {
    document.documentElement.classList.remove('on-paper');
    paper.remove();
    document.adoptedStyleSheets = document.adoptedStyleSheets.filter((other) => other !== look);
  }, { once: true });
  globalThis.print();
}
