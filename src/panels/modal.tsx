import { type MouseEvent, type ReactNode, useEffect, useRef } from 'react';

/** A dialog over everything else; Escape, a click beside it and what it holds close it. */
export function Modal(props: {
  readonly open: boolean;
  readonly label: string;
  readonly className: string;
  readonly onClose: () => void;
  readonly children: ReactNode;
}) {
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => {
    if (props.open) dialog.current?.showModal();
    else dialog.current?.close();
  }, [props.open]);
  // What begins inside and ends beside it, as selecting a text may, leaves it open.
  const beganBeside = useRef(false);
  const isBeside = ({ target, clientX: x, clientY: y }: MouseEvent): boolean => {
    if (target !== dialog.current) return false;
    const { left, right, top, bottom } = dialog.current!.getBoundingClientRect();
    return x < left || x > right || y < top || y > bottom;
  };
  return (
    // biome-ignore lint/a11y/useKeyWithClickEvents: Escape is the key for it
    <dialog
      ref={dialog}
      className={props.className}
      aria-label={props.label}
      onPointerDown={(event) => {
        beganBeside.current = isBeside(event);
      }}
      onClick={(event) => {
        if (beganBeside.current && isBeside(event)) props.onClose();
      }}
      // Told late of a closing, it may be open again by now.
      onClose={() => dialog.current?.open || props.onClose()}
    >
      {props.children}
    </dialog>
  );
}
