import { useEffect } from 'preact/hooks';
import { useApp } from '../app/context';
import type { Keeper } from '../projects/keeper';
import { t } from '../text/catalogue';
import { d } from '../text/doors';
import { closeDoors, doorsOpen, enterDoor } from './state';

function PlanPicture() {
  return (
    <svg viewBox="0 0 120 64" aria-hidden="true" class="door-picture">
      <path d="M16 14V50M104 14V50" class="door-header" />
      {[16, 24, 32, 40, 48].map((y) => (
        <path key={y} d={`M16 ${y}H104`} class="door-ghost" />
      ))}
      <path d="M16 6H104M13 9L19 3M101 9L107 3" class="door-line" />
    </svg>
  );
}

function HavePicture() {
  return (
    <svg viewBox="0 0 120 64" aria-hidden="true" class="door-picture">
      <path d="M8 14H40A8 8 0 0 1 48 22V30" class="door-pipe" />
      <path d="M48 33V44" class="door-water" />
      <path d="M30 38L34 60H62L66 38" class="door-header" />
      <path d="M32.200 50H63.800" class="door-water" />
      <circle cx="94" cy="40" r="17" class="door-line" />
      <path d="M94 40V29M94 40L101 44M94 20V16M90 16H98" class="door-header" />
    </svg>
  );
}

/** Two doors over the example, which stays in use behind them. */
export function Doors({ keeper }: { keeper: Keeper }) {
  const { store } = useApp();
  const open = doorsOpen.value;
  useEffect(() => {
    if (!open) return;
    const onKey = (event: KeyboardEvent) => {
      if (event.key === 'Escape') closeDoors();
    };
    window.addEventListener('keydown', onKey);
    return () => window.removeEventListener('keydown', onKey);
  }, [open]);
  if (!open) return null;
  return (
    <section class="doors" aria-labelledby="doors-title">
      <div class="doors-head">
        <h2 id="doors-title">{d.title}</h2>
        <button type="button" class="plain" aria-label={`${t.close}: ${d.look}`} onClick={closeDoors}>
          ×
        </button>
      </div>
      <div class="doors-two">
        {(['plan', 'have'] as const).map((door) => (
          <button key={door} type="button" class="door" onClick={() => void enterDoor(door, store, keeper)}>
            {door === 'plan' ? <PlanPicture /> : <HavePicture />}
            <span>
              <strong>{d[door]}</strong>
              <span>{d[`${door}Hint`]}</span>
            </span>
          </button>
        ))}
      </div>
      <p class="hint">
        {d.behind}{' '}
        <button type="button" class="quiet" onClick={closeDoors}>
          {d.look}
        </button>
      </p>
    </section>
  );
}
