/** Works that checks and cautions rest on; where nobody is known to say it, that is said. */
export const ARMY = 'US Army TM 1-1500-204-23-8, p. 2-2, 2-3'
export const NAVY = 'US Navy, machinery training manual (Engineman), lathe safety'
export const JONES = 'Jones, Turning and Boring (1914)'
export const PRACTICE = 'common practice, no source'
export const GEOMETRY = 'geometry'
