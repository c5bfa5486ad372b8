/** In one file, as `geometry-tests.ts`: what is fitted to measures, and the globe. */
import '../geometry/fits.test.ts';
import '../outside/measuring.test.ts';
import '../outside/geodesic.test.ts';
