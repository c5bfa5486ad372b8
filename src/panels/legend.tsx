import { TEXTURE_NAMES } from '../coating/values.ts';
import { TEXTURES, type Texture, TRAFFICS, type Traffic } from '../job/types.ts';
import { tr } from '../words/tr.ts';
import { TRAFFIC_WORDS } from './words.ts';

/** What hatches and tints mean. The swatches are drawn by the board's own pens, so the two cannot differ. */
export function Legend(props: {
  readonly swatch: (what: { readonly texture: Texture } | { readonly traffic: Traffic }) => string;
  readonly onClose: () => void;
}) {
  return (
    <aside className="legend" aria-label={tr`Legend`}>
      <header>
        <h2>{tr`Legend`}</h2>
        <button type="button" onClick={props.onClose}>{tr`Close`}</button>
      </header>
      <h3>{tr`Texture, by hatch`}</h3>
      <ul>
        {TEXTURES.map((texture) => (
          <li key={texture}>
            <img src={props.swatch({ texture })} alt="" width={44} height={24} />
            {TEXTURE_NAMES[texture]}
          </li>
        ))}
      </ul>
      <h3>{tr`Traffic, by tint`}</h3>
      <ul>
        {TRAFFICS.map((traffic) => (
          <li key={traffic}>
            <img src={props.swatch({ traffic })} alt="" width={44} height={24} />
            {TRAFFIC_WORDS[traffic]}
          </li>
        ))}
      </ul>
    </aside>
  );
}
