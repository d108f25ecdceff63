import { whyOpen } from '../app/state';
import { t } from '../text/catalogue';
import { WHY } from '../text/why';
import { Modal } from './Modal';
import type { WhyProps } from './Why';

/** Inputs, equation in words, source, notes: why an answer is what it is. */
export function WhyBox({ readouts, text, notices }: WhyProps) {
  const id = whyOpen.value;
  const readout = readouts.find((r) => r.id === id);
  const why = id === null ? null : text(id, WHY);
  if (id === null || readout === undefined || why === null) return null;
  const close = () => {
    whyOpen.value = null;
  };
  const touching = notices.filter((n) => why.touches.some((w) => `${n.code} ${n.path}`.includes(w)));
  const value = readout.value === null ? null : readout.write(readout.value);
  return (
    <Modal label={t.why.title(readout.label)} close={close} kind="why">
      <div class="editor-head">
        <h2>{readout.label}</h2>
        <button type="button" class="plain" aria-label={t.close} onClick={close}>
          ×
        </button>
      </div>
      <p class="why-value">
        {readout.word ?? value?.number}{' '}
        <span>{readout.word === undefined ? (readout.unit ?? value?.unit) : ''}</span>
      </p>
      {readout.band !== undefined && (
        <p class="hint">{t.why.bandText(readout.band.low, readout.band.high)}</p>
      )}
      <h3>{t.why.equation}</h3>
      <p>{why.equation}</p>
      <h3>{t.why.inputs}</h3>
      <dl>
        {why.inputs.map(([label, v]) => (
          <div key={label}>
            <dt>{label}</dt>
            <dd>{v}</dd>
          </div>
        ))}
      </dl>
      <h3>{t.why.source}</h3>
      <p class="hint">{why.source}</p>
      {touching.length > 0 && (
        <>
          <h3>{t.why.notices}</h3>
          <ul class="why-notes">
            {touching.map((n) => (
              <li key={n.code + n.path}>
                {n.message} {n.remedy}
              </li>
            ))}
          </ul>
        </>
      )}
    </Modal>
  );
}
