// How a table of words is said: values in their places, one or many, and the pseudo-locale that shows what does not fit.

const VOWELS = { a: "ää", e: "éé", i: "íí", o: "öö", u: "üü", A: "Ä", E: "É", I: "Í", O: "Ö", U: "Ü", n: "ñ", c: "ç", y: "ý" };

/** A text as a longer language might have it, accented, its places kept: shows what is not in this table and what does not fit. */
export const pseudo = (text) => `[${text.split(/(\{\w+\})/).map((part, i) => (i % 2 ? part : part.replace(/[aeiouAEIOUncy]/g, (c) => VOWELS[c]))).join("")}]`;

/** What says a table's texts: `(key, values)` → the text with its values in place, in the pseudo-locale when the page's
 *  language is `x-pseudo`. */
export const speaker = (table) => (key, values = {}) => {
  const forms = table[key];
  if (forms === undefined) throw new Error(`no words for ${key}`);
  const [one, many = one] = forms.split("|");
  const text = values.n === 1 ? one : many;
  const told = document.documentElement.lang === "x-pseudo" ? pseudo(text) : text;
  return told.replace(/\{(\w+)\}/g, (all, name) => values[name] ?? "");
};
