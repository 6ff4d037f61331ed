/** Looks a fabric through for what is valid but seldom meant, and names it by its kind. */
package padward.fabric.review;
