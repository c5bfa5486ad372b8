import Konva from 'konva';
import { type PointerEvent, useEffect, useRef, useState, type WheelEvent } from 'react';
import { Layer, Shape, Stage } from 'react-konva';
import type { Point } from '../../../geometry/index.ts';
import type { Job } from '../../job/types.ts';
import type { Camera, View } from '../camera.ts';
import {
  arbitrate,
  type Gesture,
  type Hands,
  NO_HANDS,
  type PointerInput,
  type PointerKind,
} from '../gestures.ts';
import type { Mark } from '../tools/tool.ts';
import { type BaysScene, drawBays } from './draw-bays.ts';
import { drawGrid } from './draw-grid.ts';
import { drawMarks } from './draw-marks.ts';
import type { ZonesScene } from './draw-zones.ts';
import { Loupe } from './loupe.tsx';
import { Plate } from './plate.ts';
import { SheetImage, type SheetPicture } from './sheet-picture.tsx';

/** More pixels than this are not worth their memory on a phone. */
const RATIO = Math.min(globalThis.devicePixelRatio || 1, 2);
Konva.pixelRatio = RATIO;

/** The board: draws what it is given, and says in gestures what the pointer means. */
export function Board(props: {
  readonly view: View;
  readonly camera: Camera;
  readonly job: Job;
  readonly scene: Omit<ZonesScene, 'camera' | 'view' | 'ratio'>;
  readonly picture: SheetPicture | null;
  /** There is no sheet to show. */
  readonly blank: boolean;
  /** The order of rolling over one slab; null while none is shown. */
  readonly bays: BaysScene | null;
  readonly marks: readonly Mark[];
  readonly label: string;
  readonly cursor: string;
  /** A finger on the board is shown what it covers. */
  readonly magnified: boolean;
  readonly onGesture: (gesture: Gesture) => void;
  readonly onFinish: () => void;
  readonly onSize: (width: number, height: number) => void;
}) {
  const { view, camera, scene, picture, marks, onGesture, onSize } = props;
  const place = useRef<HTMLDivElement>(null);
  const hands = useRef<Hands>(NO_HANDS);
  const stage = useRef<Konva.Stage>(null);
  const [finger, setFinger] = useState<Point | null>(null);
  const zonesLayer = useRef<Konva.Layer>(null);
  const [plate] = useState(() => new Plate(() => zonesLayer.current?.batchDraw()));
  useEffect(() => () => plate.drop(), [plate]);
  const spaceHeld = useHeldSpace();
  useEffect(() => {
    const element = place.current!;
    const measure = () => onSize(element.clientWidth, element.clientHeight);
    const observer = new ResizeObserver(measure);
    observer.observe(element);
    measure();
    return () => observer.disconnect();
  }, [onSize]);

  const feed = (type: PointerInput['type']) => (event: PointerEvent<HTMLDivElement>) => {
    const box = event.currentTarget.getBoundingClientRect();
    if (type === 'down') {
      event.currentTarget.setPointerCapture(event.pointerId);
      event.currentTarget.focus({ preventScroll: true });
    }
    const pans = event.button === 1 || event.button === 2 || spaceHeld.current;
    const step = arbitrate(hands.current, {
      type,
      id: event.pointerId,
      kind: event.pointerType as PointerKind,
      at: { x: event.clientX - box.left, y: event.clientY - box.top },
      pans,
    });
    hands.current = step.hands;
    if (event.pointerType === 'touch' && props.magnified) {
      const holds = step.hands.doing === 'down' || step.hands.doing === 'dragging';
      setFinger(holds ? { x: event.clientX - box.left, y: event.clientY - box.top } : null);
    }
    for (const gesture of step.gestures) onGesture(gesture);
  };
  const wheel = useWheel(place, onGesture);

  return (
    <section
      ref={place}
      className="board"
      aria-label={props.label}
      // biome-ignore lint/a11y/noNoninteractiveTabindex: the board takes keys for its tools
      tabIndex={0}
      style={{ cursor: props.cursor }}
      onPointerDown={feed('down')}
      onPointerMove={feed('move')}
      onPointerUp={feed('up')}
      onPointerCancel={feed('cancel')}
      onDoubleClick={props.onFinish}
      onContextMenu={(event) => event.preventDefault()}
      onWheel={wheel}
    >
      <Stage ref={stage} width={view.width} height={view.height} listening={false}>
        <Layer listening={false}>
          {picture ? (
            <SheetImage picture={picture} camera={camera} view={view} ratio={RATIO} />
          ) : props.blank || !view.yUp ? null : (
            <Shape listening={false} sceneFunc={(c) => drawGrid(c._context, camera, view)} />
          )}
        </Layer>
        <Layer ref={zonesLayer} listening={false}>
          <Shape
            listening={false}
            sceneFunc={(c) => {
              plate.draw(c._context, scene, camera, view, RATIO);
              if (props.bays) drawBays(c._context, props.job, props.bays, camera, view);
            }}
          />
        </Layer>
        <Layer listening={false}>
          <Shape
            listening={false}
            sceneFunc={(c) => drawMarks(c._context, marks, camera, view, scene.units)}
          />
        </Layer>
      </Stage>
      {finger && <Loupe stage={stage} at={finger} boardWidth={view.width} drawn={marks} />}
    </section>
  );
}

/** Whether the space bar is down: then the mouse pans. */
function useHeldSpace() {
  const held = useRef(false);
  useEffect(() => {
    const key = (down: boolean) => (event: KeyboardEvent) => {
      if (event.code === 'Space') held.current = down;
    };
    const onDown = key(true);
    const onUp = key(false);
    addEventListener('keydown', onDown);
    addEventListener('keyup', onUp);
    return () => {
      removeEventListener('keydown', onDown);
      removeEventListener('keyup', onUp);
    };
  }, []);
  return held;
}

/** The wheel zooms where the pointer is; with shift it pans sideways. The page behind does not move. */
function useWheel(place: React.RefObject<HTMLDivElement | null>, onGesture: (gesture: Gesture) => void) {
  useEffect(() => {
    const element = place.current!;
    const hold = (event: Event) => event.preventDefault();
    element.addEventListener('wheel', hold, { passive: false });
    return () => element.removeEventListener('wheel', hold);
  }, [place]);
  return (event: WheelEvent<HTMLDivElement>) => {
    const box = event.currentTarget.getBoundingClientRect();
    const at = { x: event.clientX - box.left, y: event.clientY - box.top };
    if (event.shiftKey) onGesture({ type: 'pan', dx: -event.deltaY, dy: 0 });
    else onGesture({ type: 'zoom', at, factor: Math.exp(-event.deltaY * (event.ctrlKey ? 0.01 : 0.0015)) });
  };
}
