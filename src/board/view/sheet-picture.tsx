import { useEffect, useState } from 'react';
import { Image as KonvaImage } from 'react-konva';
import { copiesOf, copyFor, MOST_PIXELS } from '../../photos/index.ts';
import type { Camera, View } from '../camera.ts';
import type { FindEnd } from '../snapping.ts';
import { openPage, type Page } from './document-page.ts';

/** A part of a sheet's picture that is ready to be drawn, and where it lies on the sheet. */
interface Piece {
  /** Copies to choose from by the zoom, the largest first. */
  readonly copies: ReadonlyArray<ImageBitmap | HTMLImageElement | HTMLCanvasElement>;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** What is shown beneath a sheet: one picture, or the whole of a page and a sharper part of it on top. */
export interface SheetPicture {
  readonly pieces: readonly Piece[];
}

/** Draws a sheet's picture where the camera sees it, at `ratio` pixels of the screen for one of the view. */
export function SheetImage(props: {
  readonly picture: SheetPicture;
  readonly camera: Camera;
  readonly view: View;
  readonly ratio: number;
}) {
  const { picture, camera, view, ratio } = props;
  return picture.pieces.map((p, i) => (
    <KonvaImage
      // biome-ignore lint/suspicious/noArrayIndexKey: the whole below, its sharp part above, always in this order
      key={i}
      listening={false}
      image={copyFor(p.copies, p.width * camera.zoom * ratio)}
      x={(p.x - camera.centre.x) * camera.zoom + view.width / 2}
      y={(p.y - camera.centre.y) * camera.zoom + view.height / 2}
      width={p.width * camera.zoom}
      height={p.height * camera.zoom}
    />
  ));
}

/** A picture as it lies in the job. */
interface Kept {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly page?: number;
  readonly password?: string;
}

/** Makes a sheet's picture ready for showing; null until it is there. */
export function useSheetPicture(
  blob: Blob | undefined,
  kept: Kept | null,
  camera: Camera,
  view: View,
  onBroken: () => void,
  onEnds: (findEnd: FindEnd | null) => void,
): SheetPicture | null {
  const [whole, setWhole] = useState<Piece | null>(null);
  const [page, setPage] = useState<Page | null>(null);
  const [sharp, setSharp] = useState<Piece | null>(null);
  const { widthPx: width = 1, heightPx: height = 1, page: number = 1, password } = kept ?? {};
  useEffect(() => {
    setWhole(null);
    setPage(null);
    setSharp(null);
    onEnds(null);
    if (!blob) return;
    const leaving = new AbortController();
    let opened: Page | null = null;
    const show = (copies: Piece['copies']) => {
      if (!leaving.signal.aborted) setWhole({ copies, x: 0, y: 0, width, height });
    };
    const load = async () => {
      if (blob.type === 'application/pdf') {
        opened = await openPage(blob, number, password);
        show([
          await opened.draw(0, 0, width, height, Math.min(2, Math.sqrt(MOST_PIXELS / 4 / (width * height)))),
        ]);
        if (!leaving.signal.aborted) setPage(opened);
        // A page whose lines cannot be told is traced by eye.
        opened.ends().then(
          (ends) => {
            if (!leaving.signal.aborted) onEnds(ends);
          },
          () => undefined,
        );
      } else if (blob.type === 'image/svg+xml') show([await lineImage(blob)]);
      else show(await copiesOf(blob, leaving.signal));
    };
    load().catch(() => {
      if (!leaving.signal.aborted) onBroken();
    });
    return () => {
      leaving.abort();
      opened?.close();
    };
  }, [blob, width, height, number, password, onBroken, onEnds]);

  // Closer in, the part of a page that is seen is drawn again, as sharp as the screen.
  const { centre, zoom } = camera;
  useEffect(() => {
    if (!page) return;
    const ratio = Math.min(globalThis.devicePixelRatio || 1, 2);
    const [w, h] = [view.width / zoom, view.height / zoom];
    const x = Math.max(0, centre.x - w * 0.75);
    const y = Math.max(0, centre.y - h * 0.75);
    const part = { x, y, width: Math.min(width - x, w * 1.5), height: Math.min(height - y, h * 1.5) };
    if (!(part.width > 0 && part.height > 0)) return;
    const scale = Math.min(zoom * ratio, Math.sqrt(MOST_PIXELS / (part.width * part.height)));
    let gone = false;
    const timer = setTimeout(() => {
      page.draw(part.x, part.y, part.width, part.height, scale).then(
        (image) => {
          if (!gone) setSharp({ copies: [image], ...part });
        },
        () => undefined,
      );
    }, 180);
    return () => {
      gone = true;
      clearTimeout(timer);
    };
  }, [page, centre.x, centre.y, zoom, view.width, view.height, width, height]);

  if (!whole) return null;
  return { pieces: sharp ? [whole, sharp] : [whole] };
}

/** Lines stay lines at every zoom: the browser draws such a picture anew each time. */
export async function lineImage(blob: Blob): Promise<HTMLImageElement> {
  const image = new Image();
  const url = URL.createObjectURL(blob);
  image.src = url;
  try {
    await image.decode();
    return image;
  } finally {
    URL.revokeObjectURL(url);
  }
}
