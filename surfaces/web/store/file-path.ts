/** Where a file of a campaign lies: named after its content, so that the same file is kept once. */

/** Within the campaign: "photos/9f86…0a08.jpg". `type` is a media type (RFC 6838). */
export async function filePath(bytes: Uint8Array, type: string): Promise<string> {
  const folder = type.startsWith('image/') ? 'photos' : 'files';
  return `${folder}/${await contentHash(bytes)}.${ending(type)}`;
}

async function contentHash(bytes: Uint8Array): Promise<string> {
  const digest = await crypto.subtle.digest('SHA-256', bytes as Uint8Array<ArrayBuffer>);
  return Array.from(new Uint8Array(digest), (byte) => byte.toString(16).padStart(2, '0')).join('');
}

/** "image/jpeg" ends in jpg. */
function ending(type: string): string {
  const kind = type.slice(type.indexOf('/') + 1).replace(/[^a-z0-9]/g, '');
  return kind === 'jpeg' ? 'jpg' : kind === '' ? 'bin' : kind;
}
