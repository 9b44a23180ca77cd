from intake.start import main

main()
