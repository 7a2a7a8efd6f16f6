import { findTrains, layOut, makeChart, proposeGears } from '../index.js'
import { serve } from './serve.js'

serve({ findTrains, proposeGears, makeChart, layOut })
