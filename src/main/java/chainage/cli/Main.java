package chainage.cli;

final class Main {
    private Main() {}

    public static void main(String[] args) {
        System.out.println("ok");
    }
}
