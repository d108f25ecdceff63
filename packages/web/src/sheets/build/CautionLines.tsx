import { CAUTIONS } from '@sunlap/workbench/cautions/catalogue';

/** Cautions that a step or a card names. */
export function CautionLines({ ids }: { ids: readonly string[] }) {
  const known = ids.flatMap((id) => CAUTIONS.get(id) ?? []);
  if (known.length === 0) return null;
  return (
    <div class="cautions" role="note">
      {known.map((c) => (
        <p key={c.id}>
          <strong>{c.title}</strong> {c.text}
        </p>
      ))}
    </div>
  );
}
