/** A picture's bytes from the text that holds them; none where the text is damaged. */
export function fromBase64(text: string): Uint8Array {
  try {
    return Uint8Array.from(atob(text), (c) => c.charCodeAt(0));
  } catch {
    return new Uint8Array();
  }
}

/** The text that holds a picture's bytes. */
export function toBase64(bytes: Uint8Array): string {
  let binary = '';
  // In pieces: a call takes only so many arguments.
  for (let i = 0; i < bytes.length; i += 0x8000)
    binary += String.fromCharCode(...bytes.subarray(i, i + 0x8000));
  return btoa(binary);
}

const PNG = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a];
const IEND = [0x49, 0x45, 0x4e, 0x44];

const holds = (bytes: Uint8Array, wanted: readonly number[], at = 0): boolean =>
  wanted.every((b, i) => bytes[at + i] === b);

/** Whether a PDF can hold a picture as it is: a JPEG or PNG that begins and ends as one. */
export function canBeSet(type: string, bytes: Uint8Array): boolean {
  if (type === 'image/png') return holds(bytes, PNG) && holds(bytes, IEND, bytes.length - 8);
  if (!/^image\/jpe?g$/.test(type)) return false;
  return holds(bytes, [0xff, 0xd8, 0xff]) && bytes.length > 100 && hasFrame(bytes);
}

/** Whether a JPEG says how large it is before it is cut off. */
function hasFrame(bytes: Uint8Array): boolean {
  for (let i = 2; i + 9 < bytes.length; ) {
    if (bytes[i] !== 0xff) return false;
    const marker = bytes[i + 1]!;
    if (marker >= 0xc0 && marker <= 0xcf && ![0xc4, 0xc8, 0xcc].includes(marker)) return true;
    i += 2 + ((bytes[i + 2]! << 8) | bytes[i + 3]!);
  }
  return false;
}
