/**
 * Lists of what the rider has stated or brought in: bikes, chains, products, facts, factors, words, rules, weather
 * records, files.
 */
@NullMarked
package chainage.answer.things;

import org.jspecify.annotations.NullMarked;
