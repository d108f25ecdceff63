/** The quick answer in the page itself: fetched only once it is known to take less than a frame. */
export { quickStudy as study } from './quick';
