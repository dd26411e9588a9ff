/** `npm run build`: the packages and the built page, without starting anything. */
import { setUp } from "./setup.mjs";

setUp();
