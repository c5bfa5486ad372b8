import libheif from 'libheif-js/libheif-wasm/libheif-bundle.mjs';

/** What comes of a HEIC photo: its pixels, upright, or why there are none. */
export type HeicAnswer =
  | { readonly width: number; readonly height: number; readonly pixels: ArrayBuffer }
  | { readonly fault: string };

async function decode(blob: Blob): Promise<HeicAnswer> {
  const { HeifDecoder } = await libheif();
  const [image] = new HeifDecoder().decode(new Uint8Array(await blob.arrayBuffer()));
  if (!image) return { fault: 'no picture in the file' };
  const into = new ImageData(image.get_width(), image.get_height());
  const data = await new Promise<ImageData | null>((resolve) => image.display(into, resolve));
  if (!data) return { fault: 'the picture is damaged' };
  return { width: data.width, height: data.height, pixels: data.data.buffer as ArrayBuffer };
}

self.onmessage = ({ data }: MessageEvent<Blob>) => {
  decode(data)
    .catch((error: unknown): HeicAnswer => ({ fault: String(error) }))
    .then((answer) => self.postMessage(answer, { transfer: 'pixels' in answer ? [answer.pixels] : [] }));
};
