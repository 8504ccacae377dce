// In which language the page speaks. English stands in the programs; of another language its catalog,
// a file of src/words named by the tag of the language, is fetched before they start.
//
// Seams with the programs, on `globalThis`:
//   longsmokeWords             the rows of the catalog (src/language.rs), which page and workers read
//   longsmokeLanguageChoice()  the page calls it; the control by which another language is chosen

// Also in src/ui/storage.rs, which erases it.
const KEY = 'longsmoke.language';
const ENGLISH = 'en';

const found = import.meta.glob('../src/words/*.json', { query: '?url', import: 'default', eager: true });
const tagOf = (path) => path.split('/').pop().replace('.json', '');
/** Addresses of the catalogs by the tags of their languages. */
const CATALOGS = Object.fromEntries(Object.entries(found).map(([path, url]) => [tagOf(path), url]));
const LANGUAGES = [ENGLISH, ...Object.keys(CATALOGS)];

let spoken = ENGLISH;
let sentences = {};

/** What was chosen on this device, else what the browser asks for. */
function chosen() {
  let wanted = navigator.languages;
  try {
    const stored = localStorage.getItem(KEY);
    if (stored) wanted = [stored];
  } catch {
    // A browser that keeps nothing is asked anew each time.
  }
  const known = wanted.map((tag) => tag.split('-')[0]).find((tag) => LANGUAGES.includes(tag));
  return known ?? ENGLISH;
}

/** English and translation in the order of the English, as src/language.rs reads them. */
function rows(tag, { decimal_mark: mark, within, sentences: all }) {
  const inside = Object.entries(within).map(([text, small]) => [`\u0001${text}`, small]);
  const sorted = [...inside, ...Object.entries(all)].sort(([one], [other]) => (one < other ? -1 : 1));
  return [[tag, mark], ...sorted].map((row) => row.join('\u001f')).join('\u001e');
}

/** Puts the texts of the document into the language. */
function translate(element) {
  const texts = document.createTreeWalker(element, NodeFilter.SHOW_TEXT);
  while (texts.nextNode()) {
    const node = texts.currentNode;
    const english = node.data.replace(/\s+/g, ' ').trim();
    if (english in sentences) node.data = node.data.replace(/\S[^]*\S/, () => sentences[english]);
  }
}

/** Has the page speak the language that was chosen; without its catalog it speaks English. */
export async function speak() {
  const tag = chosen();
  if (tag === ENGLISH) return;
  const catalog = await fetch(CATALOGS[tag]).then((response) => response.json()).catch(() => null);
  if (!catalog) return;
  spoken = tag;
  sentences = catalog.sentences;
  document.documentElement.lang = tag;
  globalThis.longsmokeWords = rows(tag, catalog);
  translate(document.body);
}

const ownName = (tag) => new Intl.DisplayNames([tag], { type: 'language' }).of(tag);

globalThis.longsmokeLanguageChoice = () => {
  const select = document.createElement('select');
  select.className = 'theme';
  select.setAttribute('aria-label', sentences.Language ?? 'Language');
  for (const tag of LANGUAGES) {
    const option = new Option(ownName(tag), tag, tag === spoken, tag === spoken);
    option.lang = tag;
    select.append(option);
  }
  select.addEventListener('change', () => {
    try {
      localStorage.setItem(KEY, select.value);
    } catch {
      select.value = spoken;
      return;
    }
    location.reload();
  });
  return select;
};
