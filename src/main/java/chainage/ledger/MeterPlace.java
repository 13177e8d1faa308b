package chainage.ledger;

import java.util.Locale;

/** Where a power meter sits in the drive. */
public enum MeterPlace {
    /** Pedals, cranks or a spider: it sees what the rider puts in. */
    BEFORE_CHAIN,
    /** A hub or a trainer: it sees what the chain has let through. */
    BEHIND_CHAIN,
    /** Its power is not what files hold, such as that of a trainer beside a meter that is recorded. */
    NOT_RECORDED;

    /** As the rider types it. */
    public String word() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
}
