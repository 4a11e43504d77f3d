/** What is wrong with a level book. */

export interface LevellingFinding {
  code:
    | 'level-arithmetic'
    | 'level-misclosure'
    | 'level-not-closed'
    | 'level-no-fixed-point'
    | 'level-sight-missing'
    | 'level-sight-unused'
    | 'level-distance-assumed'
    | 'level-staff-inverted'
    | 'level-staff-long';
  severity: 'error' | 'warning' | 'note';
  row_id: string;
  found: string;
  expected: string;
  fix: string;
}
