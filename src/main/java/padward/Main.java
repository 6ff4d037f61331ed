package padward;

/** Start of the program. */
public final class Main {
    private Main() {}

    /** Starts. */
    public static void main(String[] args) {}
}
