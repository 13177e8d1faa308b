package chainage.inference;

/**
 * What somebody's own observations alone say of several values together, as if they were one bell: the density of values x
 * is exp(pull · x − x · precision · x ÷ 2), so that two who say something are added up.
 *
 * @param precision symmetric, and nowhere below 0
 */
@SuppressWarnings("ArrayRecordComponent") // a vector and a matrix, made once and never compared
public record JointWitness(double[] pull, double[][] precision) {
    /**
     * By means and covariance afterwards, where the values were independent before, about 0 with variance 1. Of sums of the
     * values about which hardly anything is said ({@link Witness}) nothing is.
     */
    public static JointWitness of(double[] means, double[][] covariance) {
        int n = means.length;
        Matrices.Main main = Matrices.main(covariance);
        double[] pull = new double[n];
        double[] precisions = new double[n];
        for (int k = 0; k < n; k++) {
            double along = 0;
            for (int i = 0; i < n; i++) {
                along += main.axes()[i][k] * means[i];
            }
            Witness said = Witness.of(along, main.values()[k], 1);
            for (int i = 0; i < n; i++) {
                pull[i] += main.axes()[i][k] * said.mean() * said.precision();
            }
            precisions[k] = said.precision();
        }
        return new JointWitness(pull, main.with(precisions));
    }
}
