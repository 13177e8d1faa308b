package chainage.ride;

import java.util.AbstractList;
import java.util.List;
import java.util.RandomAccess;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;

/**
 * A list that is read when it is first looked at: most questions never look at most rides' tracks. Immutable, and equal
 * to any list of the same members.
 */
public final class LateList<E> extends AbstractList<E> implements RandomAccess {
    private @Nullable Supplier<List<E>> source;
    private @Nullable List<E> members;

    /**
     * A list still to be read.
     *
     * @param source asked once; may throw, and then throws at every look
     */
    public LateList(Supplier<List<E>> source) {
        this.source = source;
    }

    /** An immutable copy; a late list stays as it is. */
    public static <E> List<E> keep(List<E> list) {
        return list instanceof LateList<E> ? list : List.copyOf(list);
    }

    private synchronized List<E> members() {
        if (members == null && source != null) {
            members = List.copyOf(source.get());
            source = null;
        }
        return members == null ? List.of() : members;
    }

    @Override
    public E get(int index) {
        return members().get(index);
    }

    @Override
    public int size() {
        return members().size();
    }
}
