import type Konva from 'konva';
import { type RefObject, useEffect, useRef } from 'react';
import type { Point } from '../../../geometry/index.ts';
import { IN_HAND } from './palette.ts';

/** Across the loupe, in screen pixels, and how much larger it shows what lies under the finger. */
const SIZE_PX = 132;
const LARGER = 2;
/** How far above the finger it floats. */
const ABOVE_PX = 96;

/** Shows what a finger covers, enlarged, above it, or beside it near the upper edge. */
export function Loupe(props: {
  readonly stage: RefObject<Konva.Stage | null>;
  readonly at: Point;
  readonly boardWidth: number;
  /** Changes whenever the board does. */
  readonly drawn: unknown;
}) {
  const { stage, at, boardWidth, drawn } = props;
  const canvas = useRef<HTMLCanvasElement>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: drawn says that there is something new to show
  useEffect(() => {
    // The board draws in the frame that is coming; the loupe copies it after that.
    const frame = requestAnimationFrame(() => {
      if (canvas.current && stage.current) copy(stage.current, canvas.current, at);
    });
    return () => cancelAnimationFrame(frame);
  }, [stage, at, drawn]);
  const above = at.y - ABOVE_PX - SIZE_PX / 2 >= 0;
  const left = at.x < boardWidth / 2 ? at.x + ABOVE_PX : at.x - ABOVE_PX;
  const middle = above ? { x: at.x, y: at.y - ABOVE_PX } : { x: left, y: Math.max(at.y, SIZE_PX / 2) };
  return (
    <div
      className="loupe"
      aria-hidden="true"
      style={{
        width: SIZE_PX,
        height: SIZE_PX,
        left: Math.min(Math.max(middle.x - SIZE_PX / 2, 0), boardWidth - SIZE_PX),
        top: middle.y - SIZE_PX / 2,
      }}
    >
      <canvas ref={canvas} width={SIZE_PX * LARGER} height={SIZE_PX * LARGER} />
    </div>
  );
}

/** Copies what lies round a place from every layer of the board. */
function copy(stage: Konva.Stage, canvas: HTMLCanvasElement, at: Point): void {
  const c = canvas.getContext('2d')!;
  const size = canvas.width;
  c.fillStyle = '#fbfaf7';
  c.fillRect(0, 0, size, size);
  for (const layer of stage.getLayers()) {
    const from = layer.getNativeCanvasElement();
    const ratio = from.width / stage.width();
    const part = (SIZE_PX / LARGER) * ratio;
    c.drawImage(from, at.x * ratio - part / 2, at.y * ratio - part / 2, part, part, 0, 0, size, size);
  }
  c.strokeStyle = IN_HAND;
  c.lineWidth = 2;
  c.beginPath();
  for (const [dx, dy] of [
    [1, 0],
    [-1, 0],
    [0, 1],
    [0, -1],
  ] as const) {
    c.moveTo(size / 2 + dx * 8, size / 2 + dy * 8);
    c.lineTo(size / 2 + dx * 26, size / 2 + dy * 26);
  }
  c.stroke();
}
