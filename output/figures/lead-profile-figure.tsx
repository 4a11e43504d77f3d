/** A profile of lead-210 and caesium-137: activities against depth, and the ages that three models give them. */
import type { LeadProfileResult, Results } from '@stillstand/campaign/results';
import { scale } from '@stillstand/output/drawing';
import { DepthStaff, depthScale, FIRST_LANE, Track } from './drilling/track.tsx';
import { drawn, type Figure, type FigureOptions, innerWidth, narrowness, plainName } from './figure.tsx';
import { Ages, Caesium, Excess } from './lead/lanes.tsx';
import { captionText, notes, warnings } from './lead/words.ts';

const GAP = 18;
const CAESIUM = 92;
/** Right of the longest bar stand the years of its horizons. */
const ROOM_FOR_YEARS = 1.45;
const LEAST_LEAD = 90;
const LEAST_AGES = 90;

/** Two columns wide. RangeError for an unknown profile. */
export function leadProfileFigure(results: Results, label: string, options: FigureOptions = {}): Figure {
  const profile = results.lead_profiles.find((each) => each.profile === label);
  if (profile === undefined) {
    const known = results.lead_profiles.map((each) => each.profile).join(', ');
    throw new RangeError(`leadProfileFigure: expected one of ${known}, found ${label}`);
  }
  const inner = innerWidth('two', options);
  const bottom = Math.max(0.05, ...profile.slices.map((slice) => slice.bottom_m));
  const depth = depthScale(bottom, 220, 360);
  const whole = FIRST_LANE + LEAST_LEAD + GAP + CAESIUM + GAP + LEAST_AGES;
  const measured = profile.slices.some((slice) => slice.caesium_bq_kg !== null);
  const hasCaesium = measured && inner >= whole - 0.5;
  const rest = inner - FIRST_LANE - GAP - (hasCaesium ? CAESIUM + GAP : 0) - 8;
  const leadEnd = FIRST_LANE + Math.round(0.45 * rest);
  const lead = scale(0, 1.06 * mostOf(profile, 'excess'), FIRST_LANE, leadEnd);
  const caesiumX = leadEnd + GAP;
  const agesX = hasCaesium ? caesiumX + CAESIUM + GAP : caesiumX;
  const caesium = scale(0, ROOM_FOR_YEARS * mostOf(profile, 'caesium'), caesiumX, caesiumX + CAESIUM);
  const age = scale(0, oldestOf(profile), agesX, inner - 8);
  const drawing = (
    <g>
      <DepthStaff depth={depth} />
      <Track across={lead} depth={depth} first="excess lead-210" second="Bq/kg">
        <Excess profile={profile} across={lead} depth={depth} />
      </Track>
      {hasCaesium ? (
        <Track across={caesium} depth={depth} first="caesium-137" second="Bq/kg">
          <Caesium profile={profile} across={caesium} depth={depth} />
        </Track>
      ) : null}
      <Track across={age} depth={depth} first="age" second="yr before collection">
        <Ages profile={profile} across={age} depth={depth} />
      </Track>
    </g>
  );
  return drawn(
    {
      name: `lead-profile-${plainName(label)}`,
      width: 'two',
      title: `Lead-210 and caesium-137, ${label}, hole ${profile.hole}`,
      notes: notes(profile),
      warnings: [
        ...warnings(profile),
        ...(measured && !hasCaesium ? narrowness(whole, inner, 'caesium-137 is left out') : []),
      ],
      caption: { head: `Lead-210 profile ${label} in hole ${profile.hole}.`, text: captionText(profile) },
      height: depth(bottom) + 6,
    },
    drawing,
    options,
  );
}

function mostOf({ slices }: LeadProfileResult, what: 'excess' | 'caesium'): number {
  const values = slices.map((slice) =>
    what === 'excess'
      ? (slice.excess_bq_kg?.upper95 ?? 0)
      : (slice.caesium_bq_kg ?? 0) + 2 * (slice.caesium_sigma_bq_kg ?? 0),
  );
  return Math.max(1, ...values);
}

/** The scale follows the ages and the horizons; error bars are cut off at its end. */
function oldestOf({ slices, horizons, collected_ce }: LeadProfileResult): number {
  const ages = slices.flatMap((slice) =>
    slice.ages.flatMap(({ middle_yr, base_yr }) => [middle_yr?.value ?? 0, base_yr?.value ?? 0]),
  );
  const years = horizons.map(({ year_ce }) => (collected_ce ?? year_ce) - year_ce);
  return 1.1 * Math.max(20, ...ages, ...years);
}
