// Style sheets that come with a script, because the page looks the same without it.
const worn = new Set<string>();

export function wear(text: string): void {
  if (worn.has(text)) return;
  worn.add(text);
  const look = new CSSStyleSheet();
  look.replaceSync(text);
  document.adoptedStyleSheets.push(look);
}
