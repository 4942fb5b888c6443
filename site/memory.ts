// Short texts that the browser keeps from page to page. What it refuses holds as long as the page is open.
const refused = new Map<string, string>();

/** storage: asked for by a function, because a browser may refuse even to name it. */
export function recall(name: string, storage = () => localStorage): string {
  try {
    return refused.get(name) ?? storage().getItem(name) ?? "";
  } catch {
    return "";
  }
}

/** An empty text takes away what was kept. */
export function remember(name: string, text: string, storage = () => localStorage): void {
  try {
    if (text) storage().setItem(name, text);
    else storage().removeItem(name);
    refused.delete(name);
  } catch {
    refused.set(name, text);
  }
}

export const tab = () => sessionStorage;
