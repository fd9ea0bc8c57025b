/**
 * Coverage factor for 95.45 % by whole degrees of freedom, index 0 for one degree: Student's t.
 *
 * From ten degrees of freedom on, 2 is near enough.
 *
 * Source: JCGM 100:2008 (GUM), table G.2 and G.6.6, from memory. Standing: derived; a test integrates Student's density.
 */
export const COVERAGE_FACTORS: readonly number[] = [13.97, 4.53, 3.31, 2.87, 2.65, 2.52, 2.43, 2.37, 2.32];
