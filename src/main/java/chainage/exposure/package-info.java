/**
 * The one fold: rides, installations and treatments in, weighted metres a chain out, in all and since its last
 * treatment; unattributed metres kept.
 *
 * <p>Also the table of factors, each with its unit, its mark and its doubt. How long a treatment lasts and when a chain
 * is to be replaced are judged elsewhere.
 */
@NullMarked
package chainage.exposure;

import org.jspecify.annotations.NullMarked;
