package chainage.weather;

/**
 * The water on a road, in mm, moved on through pieces of constant weather. Every rate is constant between events (dry,
 * full, snow gone), so a piece is cut at its events and has no step error; what came in equals what left and what lies.
 *
 * <p>Below 0 °C all water is frozen, that which falls as rain too, and nothing leaves. From 0 °C on, snow melts with the
 * temperature into the film; falling snow joins what lies. Snow and ice do not dry by evaporation.
 */
final class Film {
    /**
     * Hears of each stretch over which the water on the road, liquid and frozen, is linear, times in hours from the start
     * of the piece.
     */
    interface Listener {
        void stretch(double fromHours, double toHours, double fromMm, double toMm);
    }

    private final FilmParameters parameters;
    private double liquidMm;
    private double frozenMm;
    private double fallenMm;
    private double evaporatedMm;
    private double runOffMm;

    Film(FilmParameters parameters) {
        this.parameters = parameters;
    }

    double liquidMm() {
        return liquidMm;
    }

    double frozenMm() {
        return frozenMm;
    }

    double fallenMm() {
        return fallenMm;
    }

    double evaporatedMm() {
        return evaporatedMm;
    }

    double runOffMm() {
        return runOffMm;
    }

    /**
     * Moves on.
     *
     * @param hours length of the piece, 0 or more
     * @param rate water falling, mm/h
     * @param frozen whether it falls as snow or ice
     * @param dries water that leaves a wet road into the air, mm/h
     */
    void step(double hours, double rate, boolean frozen, double celsius, double dries, Listener listener) {
        fallenMm += rate * hours;
        boolean freezes = celsius < 0;
        if (freezes) {
            frozenMm += liquidMm;
            liquidMm = 0;
            clear();
        }
        double snow = frozen || freezes ? rate : 0;
        double rain = rate - snow;
        double mostMelt = freezes ? 0 : parameters.meltMmPerHourPerDegree() * celsius;
        double mostEvaporation = freezes ? 0 : dries;
        double done = 0;
        while (done < hours) {
            double melt = frozenMm > 0 ? mostMelt : Math.min(mostMelt, snow);
            double in = rain + melt;
            double evaporation = liquidMm > 0 ? mostEvaporation : Math.min(mostEvaporation, in);
            boolean full = liquidMm >= parameters.capMm() && in > evaporation;
            double liquidRate = full ? 0 : in - evaporation;
            boolean heaped = frozenMm >= parameters.frozenCapMm() && snow > melt;
            double frozenRate = heaped ? 0 : snow - melt;
            double left = hours - done;
            double toLiquid = until(liquidMm, liquidRate, parameters.capMm());
            double toFrozen = until(frozenMm, frozenRate, parameters.frozenCapMm());
            double dt = Math.min(left, Math.min(toLiquid, toFrozen));
            double before = liquidMm + frozenMm;
            evaporatedMm += evaporation * dt;
            runOffMm += (full ? in - evaporation : 0) * dt + (heaped ? snow - melt : 0) * dt;
            liquidMm = after(liquidMm, liquidRate, dt, toLiquid, parameters.capMm());
            frozenMm = after(frozenMm, frozenRate, dt, toFrozen, parameters.frozenCapMm());
            listener.stretch(done, done + dt, before, liquidMm + frozenMm);
            done = dt == left ? hours : done + dt;
        }
    }

    /** Snow beyond the cap is cleared. */
    private void clear() {
        double over = Math.max(0, frozenMm - parameters.frozenCapMm());
        runOffMm += over;
        frozenMm -= over;
    }

    private static double until(double value, double rate, double cap) {
        if (rate > 0) {
            return (cap - value) / rate;
        }
        return rate < 0 ? value / -rate : Double.POSITIVE_INFINITY;
    }

    /** Lands on the bound itself, so that rounding leaves no film of nothing. */
    private static double after(double value, double rate, double dt, double event, double cap) {
        if (dt == event) {
            return rate > 0 ? cap : 0;
        }
        return Math.max(0, Math.min(cap, value + rate * dt));
    }
}
