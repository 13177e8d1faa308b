package chainage.bench;

/** The least that an answer must do: start a virtual machine and print a line. */
final class OneLine {
    private OneLine() {}

    public static void main(String[] args) {
        System.out.println("nothing is due");
    }
}
