// Where a browser knows Trusted Types, the policy of the page (index.html) takes the addresses of
// programs and the texts that become a document from this file alone.
const OURS = new URL('./', document.baseURI).href;

const rules = {
  /** Programs of this release. */
  createScriptURL(address) {
    const { href } = new URL(address, document.baseURI);
    if (!href.startsWith(OURS)) throw new TypeError(`not a program of this page: ${href}`);
    return href;
  },
  /** Sheets, which the worker writes as XML with every text escaped. */
  createHTML: (xml) => xml,
};

export const trusted = globalThis.trustedTypes?.createPolicy('longsmoke', rules) ?? rules;
