import { distance, fromFrame, type Point } from '../../../geometry/index.ts';
import { INK, PAPER } from '../../drafting/inks.ts';
import type { Id, Job } from '../../job/types.ts';
import { groundFrame } from '../../takeoff/ground.ts';
import { type Camera, toScreen, type View } from '../camera.ts';
import { IN_HAND, NOW, WET } from './palette.ts';

/** A numbered part of a floor, on the ground: rolled already, being rolled, or still to come. */
export interface BayMark {
  readonly number: number;
  readonly label: Point;
  readonly squares: ReadonlyArray<readonly Point[]>;
  readonly edges: ReadonlyArray<readonly [Point, Point]>;
  readonly state: 'wet' | 'now' | 'later';
}

/** The bays of one slab and the outlines that they are cut off at. */
export interface BaysScene {
  readonly sheetId: Id;
  readonly rings: ReadonlyArray<readonly Point[]>;
  readonly bays: readonly BayMark[];
}

type Pen = CanvasRenderingContext2D;

/** Draws numbered bays over the zones. */
export function drawBays(c: Pen, job: Job, scene: BaysScene, camera: Camera, view: View): void {
  const sheet = job.sheets[scene.sheetId];
  const frame = sheet && groundFrame(job, sheet);
  if (!frame) return;
  const at = (p: Point) => toScreen(camera, view, fromFrame(frame, p));
  c.save();
  path(c, scene.rings, at);
  c.clip('evenodd');
  for (const bay of scene.bays) {
    if (bay.state === 'later') continue;
    path(c, bay.squares, at);
    c.fillStyle = bay.state === 'wet' ? WET : NOW;
    c.fill();
    // Squares that touch leave hairlines between them.
    c.strokeStyle = c.fillStyle;
    c.lineWidth = 0.75;
    c.stroke();
  }
  c.strokeStyle = INK;
  c.lineWidth = 1.25;
  c.beginPath();
  for (const [a, b] of scene.bays.flatMap((bay) => bay.edges)) {
    const [p, q] = [at(a), at(b)];
    c.moveTo(p.x, p.y);
    c.lineTo(q.x, q.y);
  }
  c.stroke();
  c.restore();
  numbers(c, scene.bays, at);
}

/** Pixels. */
const DISC_RADIUS = 11;

/** The number of the bay in hand, and of the others in turn those that have room: closer by, all have. */
function numbers(c: Pen, bays: readonly BayMark[], at: (p: Point) => Point): void {
  const inHand = bays.filter((bay) => bay.state === 'now');
  const drawn: Point[] = [];
  for (const bay of [...inHand, ...bays.filter((b) => b.state !== 'now')]) {
    const p = at(bay.label);
    if (drawn.some((q) => distance(p, q) < 2 * DISC_RADIUS)) continue;
    drawn.push(p);
    number(c, bay, p);
  }
}

function path(c: Pen, rings: ReadonlyArray<readonly Point[]>, at: (p: Point) => Point): void {
  c.beginPath();
  for (const ring of rings) {
    ring.forEach((p, i) => {
      const q = at(p);
      if (i === 0) c.moveTo(q.x, q.y);
      else c.lineTo(q.x, q.y);
    });
    c.closePath();
  }
}

/** Its number in a disc; filled while it is being rolled. */
function number(c: Pen, bay: BayMark, p: Point): void {
  c.beginPath();
  c.arc(p.x, p.y, DISC_RADIUS, 0, 2 * Math.PI);
  c.fillStyle = bay.state === 'now' ? IN_HAND : PAPER;
  c.fill();
  c.strokeStyle = INK;
  c.lineWidth = 1.25;
  c.stroke();
  c.fillStyle = bay.state === 'now' ? PAPER : INK;
  c.font = '600 12px system-ui, sans-serif';
  c.textAlign = 'center';
  c.textBaseline = 'middle';
  c.fillText(String(bay.number), p.x, p.y + 0.5);
}
