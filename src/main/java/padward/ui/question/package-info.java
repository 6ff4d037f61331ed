/** The question, its answer, and what would open a blocked way. */
package padward.ui.question;
