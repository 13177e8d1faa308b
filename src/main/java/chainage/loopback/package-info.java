/**
 * A site given to the browsers of this machine alone, and of these to the one that was handed a key. In go a {@link
 * chainage.loopback.Site} and the limits, out comes an address. It knows nothing of what is shown.
 *
 * <p>What is guarded against: other users of the machine (the key, the cookie), other pages in the same browser (Host,
 * Origin, the token, the place that the cookie is bound to), and whoever ties up the server (bounds on bodies, times and
 * threads). Nothing is read from the disk or written there, so that a path leads nowhere.
 */
@NullMarked
package chainage.loopback;

import org.jspecify.annotations.NullMarked;
