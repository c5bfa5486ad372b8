import type { Problem } from '../problem.ts';
import { tr } from '../words/tr.ts';

/** A picture made smaller, as a file of its own; a problem where the browser cannot read it. */
export async function shrunk(
  file: Blob & { readonly name?: string },
  most: { readonly width: number; readonly height: number },
  type: 'image/jpeg' | 'image/png',
): Promise<Blob | Problem> {
  const broken: Problem = { code: 'image/not-an-image', file: file.name ?? tr`The picture` };
  try {
    const whole = await createImageBitmap(file, { imageOrientation: 'from-image' });
    const k = Math.min(1, most.width / whole.width, most.height / whole.height);
    const canvas = document.createElement('canvas');
    canvas.width = Math.max(1, Math.round(whole.width * k));
    canvas.height = Math.max(1, Math.round(whole.height * k));
    const pen = canvas.getContext('2d')!;
    if (type === 'image/jpeg') {
      pen.fillStyle = '#fff';
      pen.fillRect(0, 0, canvas.width, canvas.height);
    }
    pen.imageSmoothingQuality = 'high';
    pen.drawImage(whole, 0, 0, canvas.width, canvas.height);
    whole.close();
    const blob = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, type, 0.82));
    return blob ?? broken;
  } catch {
    return broken;
  }
}
