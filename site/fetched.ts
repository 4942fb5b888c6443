// Files of the site.

export async function fetchFile(address: string): Promise<Response> {
  const file = await fetch(address);
  if (!file.ok) throw new Error(`${address} is not there (${file.status})`);
  return file;
}

export async function fetchText(address: string): Promise<string> {
  return (await fetchFile(address)).text();
}

export async function fetchPage(address: string): Promise<Document> {
  return new DOMParser().parseFromString(await fetchText(address), "text/html");
}

/** A file that is stored gzipped. Some hosts inflate it on the way, most do not, and none knows its type: its first bytes decide. */
export async function fetchInflated(address: string): Promise<ArrayBuffer> {
  const file = await (await fetchFile(address)).arrayBuffer();
  const [first, second] = new Uint8Array(file);
  if (first !== 0x1f || second !== 0x8b) return file;
  return new Response(new Response(file).body!.pipeThrough(new DecompressionStream("gzip"))).arrayBuffer();
}
