// Elements made by scripts. What a calculator says comes as HTML from the calculators themselves, see calc/show.

export function make(tag: string, name: string | undefined, ...children: (string | Node)[]): HTMLElement {
  const element = document.createElement(tag);
  if (name) element.className = name;
  element.append(...children.map((child) => (typeof child === "string" ? unbroken(child) : child)));
  return element;
}

export function waiting(text: string): HTMLElement {
  return make("p", "waiting", text);
}

/** Keeps a number and what follows it, and both sides of a ±, on one line; the build does the same (unbroken.go). */
function unbroken(text: string): string {
  return text.replace(/ ?± ?/g, (sign) => sign.replaceAll(" ", "\u00a0")).replace(/([0-9]) (?=[\p{L}%°])/gu, "$1\u00a0");
}
