// Style sheets that come with a script, because the page looks the same without it. A script waits for its sheet at the top
// (`await wear(look)`), so nothing that it makes is seen undressed.
export function wear(name: string): Promise<unknown> {
  const link = document.createElement("link");
  link.rel = "stylesheet";
  link.href = new URL(name, import.meta.url).href;
  document.body.append(link);
  return new Promise((done) => (link.onload = link.onerror = done));
}
