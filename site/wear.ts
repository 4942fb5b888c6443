// Style sheets that come with a script, because the page looks the same without it. A part waits for its sheet first
// (`await wear(look)`), so nothing that it makes is seen undressed.
const worn: Record<string, Promise<unknown>> = {};

export function wear(name: string): Promise<unknown> {
  return (worn[name] ??= new Promise((done) => {
    const link = document.createElement("link");
    link.rel = "stylesheet";
    link.href = new URL(name, import.meta.url).href;
    link.onload = link.onerror = done;
    document.head.append(link);
  }));
}
