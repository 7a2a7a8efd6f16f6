import { findTrains, layOut, makeChart } from '../index.js'
import { serve } from './serve.js'

serve({ findTrains, makeChart, layOut })
