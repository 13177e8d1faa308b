package chainage.treatment;

import chainage.exposure.Leaning;

/**
 * What all products have in common, at one value: the rider's leaning and the spread of single lives.
 *
 * @param leaning how wet and dirty roads count
 * @param single spread of single lives, log
 */
record LifeUnknowns(Leaning leaning, double single) {
    /** So many numbers they are. */
    static final int COUNT = 3;

    /** By scores that are standard normal before anything is seen. */
    static LifeUnknowns at(double[] scores, LifePrior prior) {
        return new LifeUnknowns(
                new Leaning(
                        Math.exp(prior.leaning() * prior.scores().get(0).at(scores[0])),
                        Math.exp(prior.leaning() * prior.scores().get(1).at(scores[1]))),
                prior.single()
                        * Math.exp(prior.singleDoubt() * prior.scores().get(2).at(scores[2])));
    }
}
