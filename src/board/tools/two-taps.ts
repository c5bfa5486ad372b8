import {
  distance,
  type Frame,
  frameDistance,
  fromFrame,
  type Point,
  toFrame,
} from '../../../geometry/index.ts';
import type { Metres, SheetPoint } from '../../units/types.ts';
import { tr } from '../../words/tr.ts';
import type { Entry, Mark } from './tool.ts';

/** Shapes that two taps make: opposite corners of a rectangle; centre and edge of a circle. */
export type TwoTaps = 'rectangle' | 'circle';

/** Sizes typed on the ground; null where the taps decide. */
export interface TypedSizes {
  readonly acrossM: Metres | null;
  readonly upM: Metres | null;
}

/** A corner of a shape, and the point that the side leaving it bends through. */
export interface ShapeCorner extends SheetPoint {
  readonly via: SheetPoint | null;
}

/**
 * The outline that two taps make, in sheet coordinates: square on the ground where the sheet has a scale.
 * @param to where the pointer is; only its direction counts where sizes are typed
 * @returns null while it has no size
 */
export function shapeOf(
  shape: TwoTaps,
  from: SheetPoint,
  to: SheetPoint,
  frame: Frame | null,
  typed: TypedSizes,
): readonly ShapeCorner[] | null {
  const ground = (p: SheetPoint): Point => (frame ? toFrame(frame, p) : p);
  const sheet = (p: Point): SheetPoint => (frame ? fromFrame(frame, p) : p);
  const a = ground(from);
  const b = ground(to);
  if (shape === 'circle') {
    const radius = typed.acrossM === null ? distance(a, b) : typed.acrossM / 2;
    if (!(radius > 0)) return null;
    const at = (dx: number, dy: number) => sheet({ x: a.x + dx * radius, y: a.y + dy * radius });
    return [
      { ...at(-1, 0), via: at(0, -1) },
      { ...at(1, 0), via: at(0, 1) },
    ];
  }
  const across = typed.acrossM === null ? b.x - a.x : typed.acrossM * (b.x < a.x ? -1 : 1);
  const up = typed.upM === null ? b.y - a.y : typed.upM * (b.y < a.y ? -1 : 1);
  if (across === 0 || up === 0) return null;
  const corners = [
    from,
    sheet({ x: a.x + across, y: a.y }),
    sheet({ x: a.x + across, y: a.y + up }),
    sheet({ x: a.x, y: a.y + up }),
  ];
  return corners.map((c) => ({ ...c, via: null }));
}

/** Whether the sizes typed so far are all that is needed. */
export const isSized = (shape: TwoTaps, { acrossM, upM }: TypedSizes): boolean =>
  acrossM !== null && (shape === 'circle' || upM !== null);

/** The sizes that can be typed once the first place is tapped. */
export function sizeEntries(shape: TwoTaps, typed: TypedSizes): Entry[] {
  return shape === 'circle'
    ? [{ id: 'across', label: tr`Diameter`, valueM: typed.acrossM }]
    : [
        { id: 'across', label: tr`Across`, valueM: typed.acrossM },
        { id: 'up', label: tr`Up or down`, valueM: typed.upM },
      ];
}

/** The shape in hand with its sizes. */
export function shapeMarks(corners: readonly ShapeCorner[], shape: TwoTaps, frame: Frame | null): Mark[] {
  const [first, second, third] = corners;
  if (shape === 'circle') {
    const centre = { x: (first!.x + second!.x) / 2, y: (first!.y + second!.y) / 2 };
    const marks: Mark[] = [
      { kind: 'circle', centre, radius: distance(first!, second!) / 2 },
      { kind: 'dot', at: centre, style: 'start' },
    ];
    if (frame)
      marks.push({ kind: 'measure', a: first!, b: second!, lengthM: frameDistance(frame, first!, second!) });
    return marks;
  }
  const marks: Mark[] = [{ kind: 'line', points: [...corners, first!], style: 'hand' }];
  if (frame) {
    for (const [a, b] of [
      [first!, second!],
      [second!, third!],
    ] as const)
      marks.push({ kind: 'measure', a, b, lengthM: frameDistance(frame, a, b) });
  }
  marks.push({ kind: 'dot', at: first!, style: 'start' });
  return marks;
}
