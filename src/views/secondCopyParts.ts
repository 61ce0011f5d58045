/** All of the second copy that nobody needs to type a run: fetched in one once the page stands. */
export { secondCopyOf } from './makeBackup.ts';
export { SecondCopyAge } from './secondCopyAge.tsx';
