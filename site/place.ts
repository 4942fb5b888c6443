/** The page's name below the root of the site: procedures/rise-test/. */
export function pageOf(path: string): string {
  const root = document.documentElement.dataset.root || "./";
  return path.slice(new URL(root, location.href).pathname.length).replace(/index\.html$/, "");
}
