/** In one file, as each file of tests loads the geometry anew for every mutant, which takes longer than its tests do. */
import '../geometry/partition.test.ts';
import '../geometry/causes.test.ts';
import '../geometry/columns.test.ts';
import '../geometry/many.test.ts';
import '../geometry/contacts.test.ts';
import '../geometry/noding.test.ts';
import '../geometry/outlines.test.ts';
import '../geometry/ground.test.ts';
import '../geometry/site.test.ts';
import '../properties/partition.test.ts';
import '../geometry/uncertainty.test.ts';
import '../outside/geometry.test.ts';
