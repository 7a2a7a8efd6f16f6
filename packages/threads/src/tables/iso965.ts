/**
 * ISO 965-1, grade 6, micrometres; the other grades stand whole steps of the R40 series away (see grades.ts).
 * Each row: pitch, fundamental deviation of g and G, of f, of e (0 where there is none), Td(6), TD1(6).
 * Printed in Machinery's Handbook, 27th ed., pp. 1793-1795; rows past the pages read are from memory, kept since the
 * standard's formulas and the published 6g and 6H limits reproduce them. Where P < 0.3, TD1(6) is only the origin of its grades.
 */
export const byPitch = `.2 17 0 0 56 60
.25 18 0 0 67 71
.3 18 0 0 75 85
.35 19 34 0 85 100
.4 19 34 0 95 112
.45 20 35 0 100 125
.5 20 36 50 106 140
.6 21 36 53 125 160
.7 22 38 56 140 180
.75 22 38 56 140 190
.8 24 38 60 150 200
1 26 40 60 180 236
1.25 28 42 63 212 265
1.5 32 45 67 236 300
1.75 34 48 71 265 335
2 38 52 71 280 375
2.5 42 58 80 335 450
3 48 63 85 375 500
3.5 53 70 90 425 560
4 60 75 95 475 600
4.5 63 80 100 500 670
5 71 85 106 530 710
5.5 75 90 112 560 750
6 80 95 118 600 800
8 100 118 140 710 1000`

/** Td2(6), micrometres: up to and including this diameter, then `pitch:tolerance`. Machinery's Handbook, 31st ed., p. 2025. */
export const byStep = `1.4 .2:48 .25:53 .3:56
2.8 .2:50 .25:56 .35:63 .4:67 .45:71
5.6 .35:67 .5:75 .6:85 .7:90 .75:90 .8:95
11.2 .75:100 1:112 1.25:118 1.5:132
22.4 1:118 1.25:132 1.5:140 1.75:150 2:160 2.5:170
45 1:125 1.5:150 2:170 3:200 3.5:212 4:224 4.5:236
90 1.5:160 2:180 3:212 4:236 5:250 5.5:265 6:280
180 2:190 3:224 4:250 6:300 8:335
355 3:250 4:280 6:315 8:355`

/** The R40 series of preferred numbers (ISO 3), 10 to 95. */
export const r40 =
  '10 10.6 11.2 11.8 12.5 13.2 14 15 16 17 18 19 20 21.2 22.4 23.6 25 26.5 28 30 31.5 33.5 35.5 37.5 40 42.5 45 47.5 50 53 56 60 63 67 71 75 80 85 90 95'
