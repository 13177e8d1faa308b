package chainage.store;

/**
 * What an export brought.
 *
 * @param entries facts that are new
 * @param entriesKnown facts that were there already
 * @param rides activities that are new
 * @param ridesKnown activities whose content was there already
 */
public record Restored(long entries, long entriesKnown, long rides, long ridesKnown) {}
