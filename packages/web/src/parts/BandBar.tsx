interface Props {
  low: number | null;
  value: number | null;
  high: number | null;
  /** End of the scale. */
  max: number;
  label: string;
}

/** A value with its band on a plain scale: the wider the bar, the less is known. */
export function BandBar({ low, value, high, max, label }: Props) {
  const at = (v: number) => `${(Math.min(1, Math.max(0, v / max)) * 100).toFixed(2)}%`;
  return (
    <svg class="band-bar" width="100%" height="20" role="img" aria-label={label}>
      <line x1="0" x2="100%" y1="14.5" y2="14.5" class="band-rule" />
      {[0, 0.25, 0.5, 0.75, 1].map((u) => (
        <line key={u} x1={`${u * 100}%`} x2={`${u * 100}%`} y1="11" y2="18" class="band-rule" />
      ))}
      {low !== null && high !== null && (
        <rect
          x={at(low)}
          width={at(Math.max(0, high - Math.max(0, low)))}
          y="3"
          height="9"
          class="band-fill"
        />
      )}
      {value !== null && <line x1={at(value)} x2={at(value)} y1="0" y2="15" class="band-mark" />}
    </svg>
  );
}
