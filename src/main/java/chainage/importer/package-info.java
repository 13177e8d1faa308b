/**
 * Files and folders in, outcomes out: walks, unpacks, digests, decodes in parallel, and hands the results to a single
 * writer in a fixed order.
 *
 * <p>It knows neither the store nor the ledger: what is known already and where results go are functions it is given.
 */
@NullMarked
package chainage.importer;

import org.jspecify.annotations.NullMarked;
