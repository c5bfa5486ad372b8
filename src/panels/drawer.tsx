import type { ReactNode } from 'react';

/** How each drawer was last seen on this page: a station that one comes back to looks as it was left. */
const lastSeen = new Map<string, boolean>();

/** A part of a panel that is opened when it is wanted. `name` tells it from every other drawer of the page. */
export function Drawer(props: {
  readonly name: string;
  readonly summary: ReactNode;
  readonly className?: string;
  readonly id?: string;
  /** Whether it stands open when it is seen for the first time. */
  readonly open?: boolean;
  readonly children: ReactNode;
}) {
  const { name, summary, className = 'values', id, open = false, children } = props;
  return (
    <details
      id={id}
      className={className}
      open={lastSeen.get(name) ?? open}
      onToggle={(e) => lastSeen.set(name, e.currentTarget.open)}
    >
      <summary>{summary}</summary>
      {children}
    </details>
  );
}
